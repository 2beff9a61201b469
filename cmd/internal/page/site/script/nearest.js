// nearest finds what a press is meant for where much lies close together: what has
// its middle nearest, and not what happens to lie on top.

/** How far from its middle something is still pressed, px: a fingertip is less exact than a mouse. */
export const REACH = { touch: 24, pen: 18, mouse: 14 };

/**
 * The one of a list whose middle is nearest to a place, or null where none is within reach.
 * @template {{x: number, y: number}} T
 * @param {T[]} list
 * @param {number} x
 * @param {number} y
 * @param {number} reach px
 * @returns {T | null}
 */
export function nearest(list, x, y, reach) {
  let best = null;
  let least = reach;
  for (const one of list) {
    const away = Math.hypot(one.x - x, one.y - y);
    if (away < least || (away === least && !best)) (best = one), (least = away);
  }
  return best;
}

/** @typedef {{ key: string, shiftKey: boolean, altKey: boolean, ctrlKey: boolean, metaKey: boolean }} Key */

/** @type {Map<string, [right: number, up: number]>} */
const ARROWS = new Map([["ArrowUp", [0, 1]], ["ArrowDown", [0, -1]], ["ArrowLeft", [-1, 0]], ["ArrowRight", [1, 0]]]);

/**
 * Where an arrow key leads, and how far: coarsely with Shift, finely with Alt; null for another key.
 * @param {Key} e
 * @param {{ fine: number, plain: number, coarse: number }} steps
 */
export function arrow(e, steps) {
  const way = ARROWS.get(e.key);
  if (!way || e.ctrlKey || e.metaKey) return null;
  return { right: way[0], up: way[1], by: e.shiftKey ? steps.coarse : e.altKey ? steps.fine : steps.plain };
}

/**
 * The reach of what presses.
 * @param {{pointerType?: string}} e
 */
export const reachOf = (e) => REACH[/** @type {keyof typeof REACH} */ (e.pointerType ?? "touch")] ?? REACH.mouse;
