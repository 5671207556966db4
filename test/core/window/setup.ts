import type { BoatModel, Propulsion } from "../../../src/core/boat/index.ts";
import { flatPlane } from "../../../src/core/earth/index.ts";
import { COVERED, type Coverage } from "../../../src/core/fields/index.ts";
import { crossingOf, lineBetween, type Track, TrackRecorder } from "../../../src/core/passage/index.ts";
import { epochSeconds, metresFromNm, mpsFromKnots } from "../../../src/core/units/index.ts";
import { analyticCurrent, type CurrentSource } from "../../../src/core/water/index.ts";
import {
  periodSea,
  periodWind,
  type SeaSource,
  WIND_ARC_DEG,
  WIND_ENDS,
  WIND_FROM_DEG,
  WIND_GUST_ASSUMED,
  WIND_GUST_MPS,
  WIND_SOURCE,
  WIND_SPEED_HIGH_MPS,
  WIND_SPEED_LOW_MPS,
  type WindSource,
} from "../../../src/core/weather/index.ts";
import {
  type Exposure,
  FELT_ALONG,
  type FeltAlong,
  type FeltColumn,
  feelWhole,
  type LimitAlong,
  OPEN_WATER,
  type Pilotage,
  type Trial,
} from "../../../src/core/window/index.ts";

export const kn = mpsFromKnots;
/** A product of two speeds in knots, m²/s². */
export const kn2 = (product: number): number => kn(1) * kn(product);
export const HOUR = 3600;

/** An invented piece of ocean: x east, y north, no convergence. */
export const plane = flatPlane({ latitudeDeg: 34, longitudeDeg: -41 }, metresFromNm(150));

/** Midnight UTC before Thursday 4 June 2026. */
export const THURSDAY = 1_780_531_200;
/** An instant of that Thursday by the clock, UTC: `clock(6, 30)`; hours above 24 run into Friday. */
export const clock = (hours: number, minutes = 0, seconds = 0): number => THURSDAY + hours * HOUR + minutes * 60 + seconds;

/** One period of wind, hours of Thursday, knots. */
export interface Blow {
  readonly from: number;
  readonly until: number;
  readonly dir: number;
  readonly arc?: number;
  readonly low: number;
  readonly high?: number;
  readonly gust?: number;
}

export function winds(...blows: readonly Blow[]): WindSource {
  const periods = blows.map(({ from, until, dir, arc = 0, low, high = low, gust }) => ({
    from: epochSeconds(clock(from)),
    until: epochSeconds(clock(until)),
    fromDegTrue: dir,
    arcDeg: arc,
    speedLowMps: kn(low),
    speedHighMps: kn(high),
    gustMps: gust === undefined ? null : kn(gust),
  }));
  return periodWind("letter", null, periods, 1.4);
}

/** Seas by periods: hours of Thursday, [from, until, lowest and highest height in metres, lowest and highest period in seconds]. */
export function seas(...periods: readonly (readonly [number, number, number, number, number | null, number | null])[]): SeaSource {
  return periodSea(
    "letter",
    null,
    periods.map(([from, until, low, high, short, long]) => ({
      from: epochSeconds(clock(from)),
      until: epochSeconds(clock(until)),
      heightLowMetres: low,
      heightHighMetres: high,
      periodLowSeconds: short,
      periodHighSeconds: long,
    })),
  );
}

/** Forecasts that differ: one steady wind a member, [knots, from degrees], the same everywhere, for ever. */
export function memberWinds(members: readonly (readonly [number, number])[]): WindSource {
  return {
    name: "forecasts that differ",
    issuedAt: null,
    covers: { from: clock(0), until: clock(72) },
    memberCount: members.length,
    onPlane: (_plane, member) => ({
      readInto(out): Coverage {
        const [knots, from] = members[member] ?? [0, 0];
        out.fill(0);
        out[WIND_ENDS] = 1;
        out[WIND_SPEED_LOW_MPS] = kn(knots);
        out[WIND_SPEED_HIGH_MPS] = kn(knots);
        out[WIND_FROM_DEG] = from;
        out[WIND_ARC_DEG] = 0;
        out[WIND_GUST_MPS] = kn(knots);
        out[WIND_GUST_ASSUMED] = 0;
        out[WIND_SOURCE] = 0;
        return COVERED;
      },
      breaksWithin: () => [],
    }),
  };
}

export const stillWater: CurrentSource = analyticCurrent("still water", (out) => {
  out[0] = 0;
  out[1] = 0;
});

/** A boat of one speed, in knots; `broken` makes it throw when it is run. */
export class SteadyBoat implements BoatModel {
  readonly dependsOnWind: boolean = false;
  broken = false;
  runs = 0;
  private readonly speedMps: number;

  constructor(knots: number) {
    this.speedMps = kn(knots);
  }

  propelInto(out: Propulsion, _headingDegTrue: number, _windMps: number, _windFromDegTrue: number): void {
    if (this.broken) throw new Error("a passage was run again");
    this.runs++;
    out.speedThroughWaterMps = this.speedMps;
    out.leewayDeg = 0;
    out.engineOn = true;
    out.burnLitresPerHour = 2;
  }
}

/** A boat that goes at a quarter of the wind over the water, on every heading. */
export class WindBoat extends SteadyBoat {
  override readonly dependsOnWind = true;

  constructor() {
    super(0);
  }

  override propelInto(out: Propulsion, headingDegTrue: number, windMps: number, windFromDegTrue: number): void {
    super.propelInto(out, headingDegTrue, windMps, windFromDegTrue);
    out.speedThroughWaterMps = windMps / 4;
  }
}

/** A crossing westward, `nm` miles along y = 0, from the east side to x = 0. */
export function trial(
  options: {
    nm?: number;
    boat?: BoatModel;
    current?: CurrentSource;
    wind?: WindSource;
    member?: number;
    out?: Pilotage;
    into?: Pilotage;
  } = {},
): Trial {
  const { nm = 36, boat = new SteadyBoat(6), current = stillWater, wind, member = 0 } = options;
  const around = {
    plane,
    current: current.onPlane(plane),
    currentCovers: current.covers,
    wind: wind === undefined ? null : wind.onPlane(plane, member),
    windCovers: wind?.covers ?? null,
  };
  return {
    crossing: crossingOf(lineBetween(plane, metresFromNm(nm), 0, 0, 0), around, boat),
    out: options.out ?? null,
    into: options.into ?? null,
  };
}

/** A straight track at even times, made by hand: x in miles, current in knots, one node a row. */
export function trackOf(rows: readonly { at: number; nm: number; east?: number; north?: number; answeredBy?: number }[]): Track {
  const record = new TrackRecorder();
  for (const { at, nm, east = 0, north = 0, answeredBy = 0 } of rows) {
    record.add(at, metresFromNm(nm), 0, 270, kn(east), kn(north), kn(6), 2, true, answeredBy);
  }
  return record.finish(plane);
}

/** One node of an exposure made by hand; `high` is `low` unless told. */
export interface HandNode {
  readonly at: number;
  readonly low: number;
  readonly high?: number;
  readonly part?: number;
  readonly coverage?: Coverage;
}

/** An exposure with one quantity felt as told, a mile of way a node; the other quantities hold nothing. */
export function exposureOf(felt: FeltAlong, nodes: readonly HandNode[]): Exposure {
  const numbers = (of: (node: HandNode, i: number) => number): Float64Array => Float64Array.from(nodes, of);
  const nothing: FeltColumn = { low: numbers(() => 0), high: numbers(() => 0), coverage: new Uint8Array(nodes.length).fill(3) };
  const column: FeltColumn = {
    low: numbers((node) => node.low),
    high: numbers((node) => node.high ?? node.low),
    coverage: Uint8Array.from(nodes, (node) => node.coverage ?? COVERED),
  };
  const columns = Object.fromEntries(FELT_ALONG.map((one) => [one, one === felt ? column : nothing])) as Record<FeltAlong, FeltColumn>;
  const laid = {
    plane,
    count: nodes.length,
    atSeconds: numbers((node) => node.at),
    xMetres: numbers((_, i) => metresFromNm(i)),
    yMetres: numbers(() => 0),
    part: Uint8Array.from(nodes, (node) => node.part ?? OPEN_WATER),
    currentEastMps: new Float64Array(nodes.length),
    currentNorthMps: new Float64Array(nodes.length),
    answeredBy: new Int16Array(nodes.length),
    openWaterFuelLitres: 0,
  };
  return { ...laid, columns, whole: feelWhole(laid, nothing, null, null, null), gustAssumed: false, shiftSteps: 0 };
}

/** A limit; speeds in knots for wind and gust, kn² for wind against current, SI else. */
export function limit(felt: FeltAlong, happy: number, never: number, changes: Partial<LimitAlong> = {}): LimitAlong {
  const unit = felt === "windMps" || felt === "gustMps" ? kn : felt === "windAgainstCurrentMps2" ? kn2 : (value: number) => value;
  return { felt, happy: unit(happy), never: unit(never), during: "wholePassage", toleratedSeconds: 0, ...changes };
}
