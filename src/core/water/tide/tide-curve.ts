import { good, type Parsed } from "../../answers/index.ts";
import { type EpochSeconds, epochSeconds, radFromDeg, wrap180Deg } from "../../units/index.ts";
import { argumentDeg, factorOf } from "./constituents.ts";
import { lunarOrbit } from "./lunar-orbit.ts";
import { meanLongitudes } from "./mean-longitudes.ts";
import { nodeFactors } from "./node-factors.ts";
import { type KnownConstant, knownConstants, type TideStation } from "./tide-station.ts";

/** Node factors are reckoned at the ends of spans so long and run straight between: within 0.1 mm of each instant's own. */
const SPAN_SECONDS = 10 * 86400;
/** Spans kept at once: a year and some days. */
const KEPT_SPANS = 48;

/** A span of the curve: height = mean + Σ (amplitude + growth·t)·cos(phase + speed·t), t seconds from `startAt`; radians. */
export interface CurveSpan {
  readonly startAt: number;
  readonly endAt: number;
  readonly amplitudeMetres: Float64Array;
  readonly growthMetresPerSecond: Float64Array;
  readonly phaseRad: Float64Array;
  readonly speedRadPerSecond: Float64Array;
}

/**
 * The tide of a station: heights in metres above its datum, rates in m/s, at any instant. f and u are those of each instant (run
 * straight over ten days), not of the middle of the year as in printed tables (SP 98, paragraph 128): so the curve has no step at the new
 * year; tables differ from it by their year's error, nothing in July, up to some centimetres in January where diurnal tides are large.
 */
export class TideCurve {
  readonly station: TideStation;
  private readonly constants: readonly KnownConstant[];
  private readonly spans = new Map<number, CurveSpan>();

  constructor(station: TideStation, constants: readonly KnownConstant[]) {
    this.station = station;
    this.constants = constants;
  }

  get datum(): string {
    return this.station.datum;
  }

  get meanLevelMetres(): number {
    return this.station.meanLevelMetres;
  }

  /** Height above the datum, metres. */
  heightAt(at: EpochSeconds): number {
    const { startAt, amplitudeMetres, growthMetresPerSecond, phaseRad, speedRadPerSecond } = this.spanOf(at);
    const t = at - startAt;
    let height = this.meanLevelMetres;
    for (let i = 0; i < phaseRad.length; i++) {
      const amplitude = (amplitudeMetres[i] as number) + (growthMetresPerSecond[i] as number) * t;
      height += amplitude * Math.cos((phaseRad[i] as number) + (speedRadPerSecond[i] as number) * t);
    }
    return height;
  }

  /** How fast the water rises, m/s; falling is negative. */
  rateAt(at: EpochSeconds): number {
    const { startAt, amplitudeMetres, growthMetresPerSecond, phaseRad, speedRadPerSecond } = this.spanOf(at);
    const t = at - startAt;
    let rate = 0;
    for (let i = 0; i < phaseRad.length; i++) {
      const growth = growthMetresPerSecond[i] as number;
      const speed = speedRadPerSecond[i] as number;
      const angle = (phaseRad[i] as number) + speed * t;
      rate += growth * Math.cos(angle) - ((amplitudeMetres[i] as number) + growth * t) * speed * Math.sin(angle);
    }
    return rate;
  }

  /** The span an instant lies in. */
  spanOf(at: number): CurveSpan {
    const number = Math.floor(at / SPAN_SECONDS);
    const kept = this.spans.get(number);
    if (kept !== undefined) return kept;
    const made = this.makeSpan(number);
    if (this.spans.size >= KEPT_SPANS) this.spans.delete(this.spans.keys().next().value as number);
    this.spans.set(number, made);
    return made;
  }

  private makeSpan(number: number): CurveSpan {
    const startAt = number * SPAN_SECONDS;
    const endAt = startAt + SPAN_SECONDS;
    const [from, to] = [this.constituentsAt(startAt), this.constituentsAt(endAt)];
    const count = this.constants.length;
    const span = {
      startAt,
      endAt,
      amplitudeMetres: new Float64Array(count),
      growthMetresPerSecond: new Float64Array(count),
      phaseRad: new Float64Array(count),
      speedRadPerSecond: new Float64Array(count),
    };
    this.constants.forEach(({ amplitudeMetres, phaseDeg }, i) => {
      const [a, b] = [from[i], to[i]];
      if (a === undefined || b === undefined) throw new Error(`constituent ${i} of ${count} is missing`);
      span.amplitudeMetres[i] = amplitudeMetres * a.f;
      span.growthMetresPerSecond[i] = (amplitudeMetres * (b.f - a.f)) / SPAN_SECONDS;
      span.phaseRad[i] = radFromDeg(wrap180Deg(a.argumentDeg + a.uDeg - phaseDeg));
      // u may jump by a turn where it runs on with the moon's perigee.
      span.speedRadPerSecond[i] = radFromDeg(b.argumentDeg - a.argumentDeg + wrap180Deg(b.uDeg - a.uDeg)) / SPAN_SECONDS;
    });
    return span;
  }

  private constituentsAt(at: number): readonly { readonly argumentDeg: number; readonly f: number; readonly uDeg: number }[] {
    const longitudes = meanLongitudes(epochSeconds(at));
    const factors = nodeFactors(lunarOrbit(longitudes.moonNodeDeg), longitudes.moonPerigeeDeg);
    return this.constants.map(({ constituent }) => ({
      argumentDeg: argumentDeg(constituent, longitudes),
      ...factorOf(constituent, factors),
    }));
  }
}

/** The curve of a station, or what is wrong with its constants (`knownConstants`). */
export function tideCurve(station: TideStation, path?: string): Parsed<TideCurve> {
  const constants = knownConstants(station, path);
  return constants.ok ? good(new TideCurve(station, constants.value)) : constants;
}
