import type { Plane } from "../../earth/index.ts";
import { COVERED, type Coverage } from "../../fields/index.ts";
import { CURRENT_QUANTITIES, type CurrentSampler, type CurrentSource, NOT_FIT_HERE } from "../current.ts";
import type { CurrentFit } from "./current-fit.ts";

interface Disc {
  readonly x: number;
  readonly y: number;
  readonly reach: number;
}

class UnfitNear implements CurrentSampler {
  readonly quantities = CURRENT_QUANTITIES;
  answeredBy = 0;
  private readonly inner: CurrentSampler;
  private readonly discs: readonly Disc[];

  constructor(inner: CurrentSampler, discs: readonly Disc[]) {
    this.inner = inner;
    this.discs = discs;
  }

  sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    const coverage = this.inner.sampleInto(out, xMetres, yMetres, at);
    if (coverage === COVERED) this.answeredBy = this.isNear(xMetres, yMetres) ? NOT_FIT_HERE : this.inner.answeredBy;
    return coverage;
  }

  nearestInto(out: Float64Array, xMetres: number, yMetres: number, at: number, withinMetres: number): boolean {
    return this.inner.nearestInto(out, xMetres, yMetres, at, withinMetres);
  }

  reachesPlace(xMetres: number, yMetres: number, at: number): boolean {
    return this.inner.reachesPlace(xMetres, yMetres, at);
  }

  private isNear(xMetres: number, yMetres: number): boolean {
    for (const { x, y, reach } of this.discs) if ((xMetres - x) ** 2 + (yMetres - y) ** 2 <= reach * reach) return true;
    return false;
  }
}

/**
 * The same current, which says of itself around the stations against which it was found not fit that it is not to be relied on
 * (`NOT_FIT_HERE`): it still carries the boat, for want of better, but no limit is judged by it there. Findings that it fits are passed over.
 */
export function unfitNear(source: CurrentSource, findings: readonly CurrentFit[]): CurrentSource {
  const unfit = findings.filter(({ fits }) => !fits);
  if (unfit.length === 0) return source;
  return {
    ...source,
    onPlane: (plane, passage) => new UnfitNear(source.onPlane(plane, passage), discsOf(unfit, plane)),
  };
}

function discsOf(unfit: readonly CurrentFit[], plane: Plane): readonly Disc[] {
  return unfit.flatMap(({ stream, withinMetres }) => {
    const at = plane.toPlaneIfOn(stream.position);
    return at === null ? [] : [{ x: at.xMetres, y: at.yMetres, reach: withinMetres }];
  });
}
