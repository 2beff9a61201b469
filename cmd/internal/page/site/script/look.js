// look reads from the style sheet what is drawn on a canvas.

/** @type {ReturnType<typeof read> | null} */
let known = null;

export const look = () => (known ??= read());

function read() {
  const style = getComputedStyle(document.documentElement);
  const of = (/** @type {string} */ name) => style.getPropertyValue("--" + name).trim();
  return {
    ink: of("soft"), faint: of("line"), beside: of("sunk"), seam: of("seam"), limit: of("bad"),
    font: "13px " + style.fontFamily,
    axes: [
      { stroke: of("axis-1") }, { stroke: of("axis-2"), dash: [12, 4] },
      { stroke: of("axis-3"), dash: [3, 4] }, { stroke: of("axis-4"), dash: [12, 4, 3, 4] },
    ],
  };
}
