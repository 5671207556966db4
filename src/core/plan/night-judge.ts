import type { NoAnswer } from "../answers/index.ts";
import type { Land } from "../coast/index.ts";
import type { Position } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_TIME } from "../fields/index.ts";
import {
  type BoatAtAnchor,
  type DepthByWhich,
  depthsOfStay,
  fetchRose,
  lookAtAnchor,
  type NightAtAnchor,
  type NotJudged,
  nightAtAnchor,
  type SeaOutside,
  type StatedAnchorage,
  type TideAtAnchor,
  type WeatherAtAnchor,
} from "../places/index.ts";
import { epochSeconds } from "../units/index.ts";
import { NOT_CHART_DATUMS, tideNamed } from "../water/index.ts";
import {
  firstSeaThatCovers,
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_SLOTS,
  type SeaSampler,
  WIND_ARC_DEG,
  WIND_END_STRIDE,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_MPS,
  WIND_SLOTS,
  WIND_SPEED_HIGH_MPS,
  type WindSampler,
} from "../weather/index.ts";
import { LOOK_EVERY_SECONDS } from "./lying-there.ts";
import type { Prepared } from "./prepare.ts";

interface Place {
  readonly xMetres: number;
  readonly yMetres: number;
}

/** Judges anchorages for one night, by the control forecast. */
export class NightJudge {
  private readonly prepared: Prepared;
  private readonly boat: BoatAtAnchor;
  private readonly from: number;
  private readonly until: number;
  private readonly swellFromDegTrue: number | null;
  private readonly wind: WindSampler;
  /** What sources give; and, where they don't, what the wind raises and the stated swell. */
  private readonly forecastSea: SeaSampler | null;
  private readonly sea: SeaSampler | null;
  private readonly off: Place;
  private readonly coast: Land | null;
  private readonly windOut = new Float64Array(WIND_SLOTS);
  private readonly seaOut = new Float64Array(SEA_SLOTS);

  /** `off`: where open water begins or ends, whose sea stands for one that the forecast doesn't carry in to a place. */
  constructor(prepared: Prepared, boat: BoatAtAnchor, off: Position, from: number, until: number, swellFromDegTrue: number | null) {
    this.swellFromDegTrue = swellFromDegTrue;
    const { plane, weather, seas, wholeSea, land } = prepared;
    this.off = plane.toPlane(off);
    const span = { from, until };
    this.prepared = prepared;
    this.boat = boat;
    this.from = from;
    this.until = until;
    this.wind = weather.wind.onPlane(plane, 0, span);
    this.forecastSea = firstSeaThatCovers(seas)?.onPlane(plane, span) ?? null;
    this.sea = wholeSea?.onPlane(plane, span) ?? null;
    this.coast = land?.coastOnPlane ?? null;
  }

  /** One anchorage: looked at every half-hour, wherever the weather jumps, and at every high and low water. */
  judge(anchorage: StatedAnchorage): NightAtAnchor {
    const { plane, land } = this.prepared;
    const place = plane.toPlane(anchorage.position);
    const rose = land === null ? null : fetchRose(this.coast, plane, place);
    const shelter = { openTo: anchorage.openTo, fetchMetres: anchorage.fetchMetres, rose };
    const { by, wants } = this.depthOf(anchorage);
    const looks = this.timesFor(by?.tide ?? null).map((at) => lookAtAnchor(this.weatherAt(anchorage, place, at), shelter, by));
    const depths = by === null ? null : depthsOfStay(by.chartedMetres, by.tide, this.from, this.until);
    return nightAtAnchor(anchorage, this.boat, looks, depths, wants);
  }

  private timesFor(tide: TideAtAnchor | null): readonly number[] {
    const { from, until } = this;
    const times = new Set<number>([until]);
    for (let at = from; at < until; at += LOOK_EVERY_SECONDS) times.add(at);
    for (const source of [this.wind, this.sea]) for (const at of source?.breaksWithin(from, until) ?? []) times.add(at);
    if (tide?.kind === "computed") for (const { at } of tide.tide.highsAndLows(epochSeconds(from), epochSeconds(until))) times.add(at);
    return [...times].sort((one, other) => one - other);
  }

  /** By what the depth is judged, or why it isn't. */
  private depthOf({ depthMetres, tide, wavesMetres }: StatedAnchorage): {
    readonly by: DepthByWhich | null;
    readonly wants: readonly NotJudged[];
  } {
    const { draughtMetres } = this.boat;
    const wants: NotJudged[] = [];
    if (depthMetres === null) wants.push({ kind: "notStated", what: "depth" });
    else if (tide === null) wants.push({ kind: "notStated", what: "tide" });
    if (draughtMetres === null) wants.push({ kind: "notStated", what: "draught" });
    if (tide === null || depthMetres === null || draughtMetres === null) return { by: null, wants };
    const rest = { chartedMetres: depthMetres, draughtMetres, wavesMetres };
    if (tide.kind === "stated") return { by: { ...rest, tide }, wants };
    const named = tideNamed(this.prepared.tides, tide.name);
    if (named === null) throw new Error(`an anchorage by the tide of ${tide.name}, which the passage hasn't`);
    // A depth on the chart can't be added to a height above mean sea level.
    if (NOT_CHART_DATUMS.has(named.datum)) return { by: null, wants: [{ kind: "datum", tide: tide.name, datum: named.datum }] };
    return { by: { ...rest, tide: { kind: "computed", name: tide.name, tide: named } }, wants };
  }

  private weatherAt(
    anchorage: StatedAnchorage,
    place: { readonly xMetres: number; readonly yMetres: number },
    at: number,
  ): WeatherAtAnchor {
    const { windOut, seaOut } = this;
    const coverage = this.wind.readInto(windOut, place.xMetres, place.yMetres, at);
    if (coverage !== COVERED) return { kind: "unknown", at, why: this.noWind(anchorage, coverage, at) };
    const ends = Array.from({ length: windOut[WIND_ENDS] as number }, (_, end) => {
      const slot = end * WIND_END_STRIDE;
      return {
        windMps: windOut[WIND_SPEED_HIGH_MPS + slot] as number,
        fromDegTrue: windOut[WIND_FROM_DEG + slot] as number,
        arcDeg: windOut[WIND_ARC_DEG + slot] as number,
      };
    });
    const reads = (sea: SeaSampler | null, from: Place): boolean => sea?.readInto(seaOut, from.xMetres, from.yMetres, at) === COVERED;
    // A forecast off the place says more of the sea outside than what is raised at the place itself.
    const covered = reads(this.forecastSea, place) || reads(this.forecastSea, this.off) || reads(this.sea, this.off);
    const outside: SeaOutside | null = covered
      ? {
          heightMetres: seaOut[SEA_HEIGHT_HIGH_METRES] as number,
          periodSeconds: seaOut[SEA_HAS_PERIOD] === 1 ? (seaOut[SEA_PERIOD_HIGH_SECONDS] as number) : null,
          fromDegTrue: this.swellFromDegTrue,
        }
      : null;
    return { kind: "known", at, ends, gustMps: windOut[WIND_GUST_MPS] as number, outside };
  }

  private noWind({ position }: StatedAnchorage, coverage: Coverage, at: number): NoAnswer {
    const { covers } = this.prepared.weather.wind;
    const code = coverage === NO_PLACE ? "not-covered-place" : coverage === NO_TIME ? "not-covered-time" : "not-covered-variable";
    return { kind: "noAnswer", code, quantity: "windMps", at, where: position, coveredFrom: covers.from, coveredUntil: covers.until };
  }
}
