import type { Plane, Position } from "../earth/index.ts";

/** Nodes of a fixed track in or out of harbour, at a speed over the ground; the water is not reckoned there, and that is said. */
export interface PilotageRun {
  readonly count: number;
  readonly atSeconds: Float64Array;
  readonly xMetres: Float64Array;
  readonly yMetres: Float64Array;
  readonly lengthMetres: number;
  /** 1 where the boat has lain still since the node before; left out where she never does. */
  readonly waiting?: Uint8Array;
}

/** Nodes at least this often, seconds, so that wind and light are felt along the leg. */
const NODE_EVERY_SECONDS = 600;

/** Seconds that a fixed track takes at a speed over the ground. Throws when the speed is not above nothing. */
export function pilotageSeconds(plane: Plane, points: readonly Position[], speedOverGroundMps: number): number {
  if (!(speedOverGroundMps > 0)) throw new Error(`a pilotage leg needs a speed: ${speedOverGroundMps}`);
  let metres = 0;
  for (let i = 1; i < points.length; i++) {
    const a = plane.toPlane(points[i - 1] as Position);
    const b = plane.toPlane(points[i] as Position);
    metres += Math.hypot(b.xMetres - a.xMetres, b.yMetres - a.yMetres);
  }
  return metres / speedOverGroundMps;
}

/** Runs a fixed track from its first point at `departAt`. Throws when the speed is not above nothing or there is no point. */
export function runPilotage(plane: Plane, points: readonly Position[], speedOverGroundMps: number, departAt: number): PilotageRun {
  if (!(speedOverGroundMps > 0)) throw new Error(`a pilotage leg needs a speed: ${speedOverGroundMps}`);
  const at: number[] = [departAt];
  const places = points.map((point) => plane.toPlane(point));
  const first = places[0];
  if (first === undefined) throw new Error("a pilotage leg needs points");
  const x = [first.xMetres];
  const y = [first.yMetres];
  let lengthMetres = 0;
  let t = departAt;
  for (let i = 1; i < places.length; i++) {
    const a = places[i - 1] as { xMetres: number; yMetres: number };
    const b = places[i] as { xMetres: number; yMetres: number };
    const metres = Math.hypot(b.xMetres - a.xMetres, b.yMetres - a.yMetres);
    const seconds = metres / speedOverGroundMps;
    const pieces = Math.max(1, Math.ceil(seconds / NODE_EVERY_SECONDS));
    for (let k = 1; k <= pieces; k++) {
      at.push(t + (seconds * k) / pieces);
      x.push(a.xMetres + ((b.xMetres - a.xMetres) * k) / pieces);
      y.push(a.yMetres + ((b.yMetres - a.yMetres) * k) / pieces);
    }
    t += seconds;
    lengthMetres += metres;
  }
  return {
    count: at.length,
    atSeconds: Float64Array.from(at),
    xMetres: Float64Array.from(x),
    yMetres: Float64Array.from(y),
    lengthMetres,
  };
}
