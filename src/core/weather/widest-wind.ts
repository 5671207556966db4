import { wrap360Deg } from "../units/index.ts";

/** A range of speeds, m/s, over an arc of directions that the wind comes from, clockwise, degrees true. */
export interface WindEnd {
  readonly speedLowMps: number;
  readonly speedHighMps: number;
  readonly fromDegTrue: number;
  readonly arcDeg: number;
}

/** The one end that holds all of several: the widest range of speeds, the shortest arc that takes in all their arcs. Throws on none. */
export function widestWind(ends: readonly WindEnd[]): WindEnd {
  const [only, ...others] = ends;
  if (only === undefined) throw new Error("no winds to take the widest of");
  if (others.length === 0) return only;
  return {
    speedLowMps: Math.min(...ends.map((end) => end.speedLowMps)),
    speedHighMps: Math.max(...ends.map((end) => end.speedHighMps)),
    ...shortestArcOver(ends.filter((end) => end.speedHighMps > 0)),
  };
}

/** The circle less the widest gap that the arcs leave; all of it where they leave none. A calm has no arc of its own. */
function shortestArcOver(arcs: readonly WindEnd[]): { readonly fromDegTrue: number; readonly arcDeg: number } {
  const ordered = [...arcs].sort((a, b) => wrap360Deg(a.fromDegTrue) - wrap360Deg(b.fromDegTrue));
  const first = ordered[0];
  if (first === undefined) return { fromDegTrue: 0, arcDeg: 360 };
  const firstDeg = wrap360Deg(first.fromDegTrue);
  // Arcs that run past north cover the circle's beginning too.
  let reachedDeg = Math.max(firstDeg, ...ordered.map((arc) => wrap360Deg(arc.fromDegTrue) + arc.arcDeg - 360));
  let gapDeg = 0;
  let startDeg = firstDeg;
  for (const arc of ordered) {
    const fromDeg = wrap360Deg(arc.fromDegTrue);
    if (fromDeg - reachedDeg > gapDeg) {
      gapDeg = fromDeg - reachedDeg;
      startDeg = fromDeg;
    }
    reachedDeg = Math.max(reachedDeg, fromDeg + arc.arcDeg);
  }
  const lastGapDeg = firstDeg + 360 - reachedDeg;
  if (lastGapDeg >= gapDeg) return { fromDegTrue: firstDeg, arcDeg: 360 - lastGapDeg };
  return { fromDegTrue: startDeg, arcDeg: 360 - gapDeg };
}
