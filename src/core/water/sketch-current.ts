import type { Plane } from "../earth/index.ts";
import { Axis, type AxisPlace, COVERED, type Coverage, NO_PLACE, NO_TIME, sheetPlaceOf } from "../fields/index.ts";
import { radFromDeg, turnDeg } from "../units/index.ts";
import { AnalyticCurrent, type CurrentSampler, type CurrentSource, isOnSheet } from "./current.ts";
import { SHARPEST_SKETCHED_TURN_DEG, type StreamSketch } from "./sketched-stream.ts";

/** What holds between two neighbouring points of the section. */
interface Stretch {
  readonly nearMps: number;
  readonly farMps: number;
  readonly nearSetDeg: number;
  readonly turnDeg: number;
}

class SketchCurrent extends AnalyticCurrent {
  private readonly sketch: StreamSketch;
  private readonly plane: Plane;
  private readonly across: Axis;
  private readonly stretches: readonly Stretch[];
  private readonly place: AxisPlace = { index: 0, fraction: 0 };
  private readonly x0: number;
  private readonly y0: number;
  private readonly rightX: number;
  private readonly rightY: number;

  constructor(sketch: StreamSketch, plane: Plane) {
    super();
    this.sketch = sketch;
    this.plane = plane;
    this.across = new Axis(Float64Array.from(sketch.section, (point) => point.acrossMetres));
    this.stretches = stretchesOf(sketch);
    const origin = sheetPlaceOf(plane, sketch.at);
    this.x0 = origin.xMetres;
    this.y0 = origin.yMetres;
    const axisRad = radFromDeg(sketch.axisTowardDegTrue - origin.convergenceDeg);
    this.rightX = Math.cos(axisRad);
    this.rightY = -Math.sin(axisRad);
  }

  override sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    const { from, until } = this.sketch;
    if (!((from === null || at >= from) && (until === null || at <= until))) return NO_TIME;
    if (!this.reachesPlace(xMetres, yMetres)) return NO_PLACE;
    const stretch = this.stretches[this.place.index];
    if (stretch === undefined) throw new Error(`sketch has no stretch ${this.place.index}`);
    const share = this.place.fraction;
    const nearMps = (1 - share) * stretch.nearMps;
    const farMps = share * stretch.farMps;
    const startDeg = stretch.nearSetDeg - this.plane.convergenceDegAt(xMetres, yMetres);
    if (Math.abs(stretch.turnDeg) > SHARPEST_SKETCHED_TURN_DEG) {
      const nearRad = radFromDeg(startDeg);
      const farRad = radFromDeg(startDeg + stretch.turnDeg);
      out[0] = nearMps * Math.sin(nearRad) + farMps * Math.sin(farRad);
      out[1] = nearMps * Math.cos(nearRad) + farMps * Math.cos(farRad);
    } else {
      const setRad = radFromDeg(startDeg + share * stretch.turnDeg);
      out[0] = (nearMps + farMps) * Math.sin(setRad);
      out[1] = (nearMps + farMps) * Math.cos(setRad);
    }
    return COVERED;
  }

  override reachesPlace(xMetres: number, yMetres: number): boolean {
    if (!isOnSheet(this.plane, xMetres, yMetres)) return false;
    return this.across.locate(this.place, (xMetres - this.x0) * this.rightX + (yMetres - this.y0) * this.rightY);
  }
}

function stretchesOf({ section, axisTowardDegTrue }: StreamSketch): readonly Stretch[] {
  return section.map((near, i) => {
    const far = section[i + 1] ?? near;
    const nearOwnDeg = near.setDegTrue ?? axisTowardDegTrue;
    const farOwnDeg = far.setDegTrue ?? axisTowardDegTrue;
    const nearSetDeg = near.rateMps === 0 ? farOwnDeg : nearOwnDeg;
    const farSetDeg = far.rateMps === 0 ? nearSetDeg : farOwnDeg;
    return { nearMps: near.rateMps, farMps: far.rateMps, nearSetDeg, turnDeg: turnDeg(nearSetDeg, farSetDeg) };
  });
}

/** A stream from a sketch: rate and set joined by straight lines across the section, the same all along the axis. It tells no time of issue. */
export function sketchCurrent(sketch: StreamSketch): CurrentSource {
  const { from, until } = sketch;
  return {
    name: sketch.name,
    covers: from !== null && until !== null ? { from, until } : null,
    issuedAt: null,
    heldSteady: from === null || until === null,
    onPlane: (plane: Plane): CurrentSampler => new SketchCurrent(sketch, plane),
  };
}
