/** How places are joined: by cubics, by cubics that break where the line turns sharply, or by straight pieces. */
export type Joined = "bent" | "kinked" | "straight";

/** A line that turns by more than eight degrees at a place is taken to have a kink there. */
const KINK_COSINE = Math.cos((8 * Math.PI) / 180);

/**
 * A line of places joined by cubics with a common slope at each (Hermite, slopes of the parabola through three places, by chord length:
 * de Boor, A Practical Guide to Splines, ch. IV). Places in metres; the parameter of piece i runs from i to i + 1.
 */
export class BentLine {
  readonly pieces: number;
  readonly along: Float64Array;
  readonly port: Float64Array;
  private readonly lengths: Float64Array;
  /** Slopes at the beginnings of the pieces, and at their ends; none for straight pieces. */
  private readonly slopeAlong: Float64Array;
  private readonly slopePort: Float64Array;
  private readonly endSlopeAlong: Float64Array;
  private readonly endSlopePort: Float64Array;
  /** Answer of `moveTo`: the place, and the derivative by the parameter. */
  atAlong = 0;
  atPort = 0;
  byAlong = 0;
  byPort = 0;

  constructor(along: Float64Array, port: Float64Array, joined: Joined = "bent") {
    const count = along.length;
    this.pieces = count - 1;
    this.along = along;
    this.port = port;
    this.lengths = new Float64Array(count - 1);
    for (let i = 0; i + 1 < count; i++) {
      const dx = (along[i + 1] as number) - (along[i] as number);
      const dy = (port[i + 1] as number) - (port[i] as number);
      this.lengths[i] = Math.sqrt(dx * dx + dy * dy);
    }
    if (joined === "kinked") {
      this.slopeAlong = new Float64Array(this.pieces);
      this.slopePort = new Float64Array(this.pieces);
      this.endSlopeAlong = new Float64Array(this.pieces);
      this.endSlopePort = new Float64Array(this.pieces);
      this.bendBetweenKinks();
      return;
    }
    this.slopeAlong = joined === "straight" ? NO_SLOPES : slopesOf(along, this.lengths);
    this.slopePort = joined === "straight" ? NO_SLOPES : slopesOf(port, this.lengths);
    this.endSlopeAlong = this.slopeAlong.subarray(1);
    this.endSlopePort = this.slopePort.subarray(1);
  }

  moveTo(piece: number, s: number): void {
    const x0 = this.along[piece] as number;
    const y0 = this.port[piece] as number;
    const x1 = this.along[piece + 1] as number;
    const y1 = this.port[piece + 1] as number;
    if (this.slopeAlong.length === 0) {
      this.atAlong = x0 + s * (x1 - x0);
      this.atPort = y0 + s * (y1 - y0);
      this.byAlong = x1 - x0;
      this.byPort = y1 - y0;
      return;
    }
    const length = this.lengths[piece] as number;
    const u = 1 - s;
    const h01 = s * s * (3 - 2 * s);
    const h10 = length * s * u * u;
    const h11 = -length * s * s * u;
    const d01 = 6 * s * u;
    const d10 = length * u * (1 - 3 * s);
    const d11 = length * s * (3 * s - 2);
    const a0 = this.slopeAlong[piece] as number;
    const a1 = this.endSlopeAlong[piece] as number;
    const p0 = this.slopePort[piece] as number;
    const p1 = this.endSlopePort[piece] as number;
    this.atAlong = x0 + h01 * (x1 - x0) + h10 * a0 + h11 * a1;
    this.atPort = y0 + h01 * (y1 - y0) + h10 * p0 + h11 * p1;
    this.byAlong = d01 * (x1 - x0) + d10 * a0 + d11 * a1;
    this.byPort = d01 * (y1 - y0) + d10 * p0 + d11 * p1;
  }

  private bendBetweenKinks(): void {
    let first = 0;
    for (let i = 1; i <= this.pieces; i++) {
      if (i < this.pieces && !this.isKink(i)) continue;
      const lengths = this.lengths.subarray(first, i);
      const slopeAlong = slopesOf(this.along.subarray(first, i + 1), lengths);
      const slopePort = slopesOf(this.port.subarray(first, i + 1), lengths);
      this.slopeAlong.set(slopeAlong.subarray(0, i - first), first);
      this.slopePort.set(slopePort.subarray(0, i - first), first);
      this.endSlopeAlong.set(slopeAlong.subarray(1), first);
      this.endSlopePort.set(slopePort.subarray(1), first);
      first = i;
    }
  }

  private isKink(i: number): boolean {
    const bx = (this.along[i] as number) - (this.along[i - 1] as number);
    const by = (this.port[i] as number) - (this.port[i - 1] as number);
    const ax = (this.along[i + 1] as number) - (this.along[i] as number);
    const ay = (this.port[i + 1] as number) - (this.port[i] as number);
    return bx * ax + by * ay < KINK_COSINE * Math.sqrt((bx * bx + by * by) * (ax * ax + ay * ay));
  }
}

const NO_SLOPES = new Float64Array(0);

/** Slopes by chord length at each place: of the parabola through it and its neighbours; at the ends through the first and last three. */
function slopesOf(values: Float64Array, lengths: Float64Array): Float64Array {
  const last = values.length - 1;
  const slopes = new Float64Array(last + 1);
  const chord = (i: number): number => ((values[i + 1] as number) - (values[i] as number)) / (lengths[i] as number);
  for (let i = 1; i < last; i++) {
    const before = lengths[i - 1] as number;
    const after = lengths[i] as number;
    slopes[i] = (chord(i - 1) * after + chord(i) * before) / (before + after);
  }
  slopes[0] = last === 1 ? chord(0) : 2 * chord(0) - (slopes[1] as number);
  slopes[last] = last === 1 ? chord(0) : 2 * chord(last - 1) - (slopes[last - 1] as number);
  return slopes;
}

/** The same line in `pieces` pieces of equal chord: new places along the straight pieces (`bent` false) or the cubics. */
export function divided(
  along: Float64Array,
  port: Float64Array,
  pieces: number,
  bent: boolean,
): { readonly along: Float64Array; readonly port: Float64Array } {
  const line = new BentLine(along, port, bent ? "bent" : "straight");
  const count = along.length;
  const total = new Float64Array(count);
  for (let i = 1; i < count; i++) {
    const dx = (along[i] as number) - (along[i - 1] as number);
    const dy = (port[i] as number) - (port[i - 1] as number);
    total[i] = (total[i - 1] as number) + Math.sqrt(dx * dx + dy * dy);
  }
  const whole = total[count - 1] as number;
  const out = { along: new Float64Array(pieces + 1), port: new Float64Array(pieces + 1) };
  let piece = 0;
  for (let k = 1; k < pieces; k++) {
    const wanted = (whole * k) / pieces;
    while (piece + 2 < count && (total[piece + 1] as number) < wanted) piece++;
    const from = total[piece] as number;
    line.moveTo(piece, (wanted - from) / ((total[piece + 1] as number) - from));
    out.along[k] = line.atAlong;
    out.port[k] = line.atPort;
  }
  out.along[0] = along[0] as number;
  out.port[0] = port[0] as number;
  out.along[pieces] = along[count - 1] as number;
  out.port[pieces] = port[count - 1] as number;
  return out;
}
