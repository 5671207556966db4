import type { Line } from "../line.ts";

/**
 * The plane's sheet turned and shifted so that a line's start is the origin, `along` runs down the line and `port` square to it to port;
 * metres. Right-handed, so that the equations of the extremals hold in it as they are printed.
 */
export class TurnedSheet {
  readonly originX: number;
  readonly originY: number;
  readonly alongX: number;
  readonly alongY: number;

  constructor(line: Line) {
    this.originX = line.fromX;
    this.originY = line.fromY;
    this.alongX = line.alongX;
    this.alongY = line.alongY;
  }

  alongOf(x: number, y: number): number {
    return (x - this.originX) * this.alongX + (y - this.originY) * this.alongY;
  }

  portOf(x: number, y: number): number {
    return (y - this.originY) * this.alongX - (x - this.originX) * this.alongY;
  }

  xOf(along: number, port: number): number {
    return this.originX + along * this.alongX - port * this.alongY;
  }

  yOf(along: number, port: number): number {
    return this.originY + along * this.alongY + port * this.alongX;
  }
}
