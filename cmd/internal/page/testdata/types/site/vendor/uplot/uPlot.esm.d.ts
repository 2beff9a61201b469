// What the scripts use of the chart.
export default class Chart {
  constructor(options: object, data: (number | null)[][], inside: Element);
  readonly width: number;
  readonly height: number;
  readonly over: HTMLDivElement;
  readonly bbox: { left: number, top: number, width: number, height: number };
  readonly ctx: CanvasRenderingContext2D;
  setData(data: (number | null)[][], scales?: boolean): void;
  setSize(size: { width: number, height: number }): void;
  setScale(scale: string, limits: { min: number, max: number }): void;
  redraw(paths?: boolean, axes?: boolean): void;
  batch(f: () => void): void;
  destroy(): void;
  posToVal(pos: number, scale: string, canvas?: boolean): number;
  valToPos(value: number, scale: string, canvas?: boolean): number;
}
