import { seededNumbers } from "./seeded-numbers.ts";

/** East and north, kn, at miles and hours, with the gradient per mile: [u, v, ∂u/∂x, ∂u/∂y, ∂v/∂x, ∂v/∂y]. */
export type EddyingFlow = (out: Float64Array, east: number, north: number, hour: number) => void;

export const EDDY_BOAT_KN = 5.5;
export const EDDY_LINE_NM = 60;

interface Part {
  readonly isVortex: boolean;
  readonly east: number;
  readonly north: number;
  readonly sizeNm: number;
  readonly strength: number;
  /** A vortex drifts, kn; a stream has its axis' direction. */
  readonly byEast: number;
  readonly byNorth: number;
  /** A stream may turn with the tide: radians an hour (0: steady) and at hour 0. */
  readonly turning: number;
  readonly phase: number;
}

/**
 * A stream without sources or sinks made of three to ten vortices (Gaussian stream functions, some drifting) and up to two jets (some tidal)
 * around a line of 60 miles east, scaled so that its greatest rate there is `share` of the boat's speed: from `least` to `most`.
 */
export function eddyingFlow(seed: number, least: number, most: number): EddyingFlow {
  const next = seededNumbers(seed);
  const changes = next() < 0.5;
  const parts: Part[] = [];
  const vortices = 3 + Math.floor(next() * 8);
  for (let i = 0; i < vortices; i++) {
    parts.push({
      isVortex: true,
      east: -10 + 80 * next(),
      north: -30 + 60 * next(),
      sizeNm: 4 + 11 * next(),
      strength: 2 * next() - 1,
      byEast: changes ? next() - 0.5 : 0,
      byNorth: changes ? next() - 0.5 : 0,
      turning: 0,
      phase: 0,
    });
  }
  const jets = Math.floor(next() * 3);
  for (let i = 0; i < jets; i++) {
    const toward = 2 * Math.PI * next();
    parts.push({
      isVortex: false,
      east: 60 * next(),
      north: -15 + 30 * next(),
      sizeNm: 5 + 12 * next(),
      strength: 2 * next() - 1,
      byEast: Math.cos(toward),
      byNorth: Math.sin(toward),
      turning: changes && next() < 0.6 ? (2 * Math.PI) / 12.42 : 0,
      phase: 2 * Math.PI * next(),
    });
  }
  const bare: EddyingFlow = (out, east, north, hour) => {
    out.fill(0);
    for (const part of parts) (part.isVortex ? addVortex : addJet)(out, part, east, north, hour);
  };
  const wanted = (least + (most - least) * next()) * EDDY_BOAT_KN;
  const out = new Float64Array(6);
  let greatest = 0;
  for (let hour = 0; hour <= 12; hour += 4) {
    for (let east = -6; east <= 66; east += 2) {
      for (let north = -24; north <= 24; north += 2) {
        bare(out, east, north, hour);
        greatest = Math.max(greatest, Math.hypot(out[0] as number, out[1] as number));
      }
    }
  }
  const scale = wanted / greatest;
  return (flow, east, north, hour) => {
    bare(flow, east, north, hour);
    for (let k = 0; k < 6; k++) flow[k] = (flow[k] as number) * scale;
  };
}

function add(out: Float64Array, u: number, v: number, ux: number, uy: number, vx: number, vy: number): void {
  out[0] = (out[0] as number) + u;
  out[1] = (out[1] as number) + v;
  out[2] = (out[2] as number) + ux;
  out[3] = (out[3] as number) + uy;
  out[4] = (out[4] as number) + vx;
  out[5] = (out[5] as number) + vy;
}

function addVortex(out: Float64Array, part: Part, east: number, north: number, hour: number): void {
  const dx = east - part.east - part.byEast * hour;
  const dy = north - part.north - part.byNorth * hour;
  const square = part.sizeNm * part.sizeNm;
  const e = (part.strength * Math.exp(0.5 - (dx * dx + dy * dy) / (2 * square))) / part.sizeNm;
  add(out, -dy * e, dx * e, (dx * dy * e) / square, -e + (dy * dy * e) / square, e - (dx * dx * e) / square, (-dx * dy * e) / square);
}

function addJet(out: Float64Array, part: Part, east: number, north: number, hour: number): void {
  const c = part.byEast;
  const s = part.byNorth;
  const off = -(east - part.east) * s + (north - part.north) * c;
  const square = part.sizeNm * part.sizeNm;
  const e = part.strength * Math.exp(-(off * off) / square) * (part.turning === 0 ? 1 : Math.cos(part.turning * hour + part.phase));
  const slope = (-2 * off * e) / square;
  add(out, c * e, s * e, -c * s * slope, c * c * slope, -s * s * slope, s * c * slope);
}
