import {
  type CarriedOut,
  carryOut,
  downStreamSideOf,
  earliestOf,
  type FastestWay,
  type ReAimTable,
  reAimTables,
  recommended,
  type SquareDepartures,
  STREAM_FACTORS,
  type StreamAcross,
  type Way,
  type WayArrives,
  waysAndBest,
} from "../passage/index.ts";
import {
  type BoardRow,
  judgeBoard,
  judgeWay,
  type KeptDeparture,
  keepDepartures,
  outOfHarbour,
  SurroundingsOfRuns,
  type WayJudged,
} from "../window/index.ts";
import { type AfterArrival, afterArrival } from "./after-arrival.ts";
import { timesAfter } from "./departure-times.ts";
import { type FuelPlan, fuelPlan } from "./fuel-plan.ts";
import { LYING_SECONDS } from "./lying-there.ts";
import type { Prepared } from "./prepare.ts";
import { type Seam, seamFinder } from "./seams.ts";
import { departuresSquare } from "./square-departures.ts";
import { type Staging, stagingFor } from "./staging.ts";
import { type StandingOff, standingOff } from "./standing-off.ts";
import { type UpStreamBias, upStreamBias } from "./upstream-bias.ts";

/** A way with its price and what it does when the stream is not as foretold. */
export interface ComparedWay {
  readonly way: Way;
  /** Against the earliest arrival computed; null where it does not arrive. */
  readonly costSeconds: number | null;
  /** By the skipper's limits along its own path; null where it does not arrive. */
  readonly judged: WayJudged | null;
  /** For each stream factor but 1: what comes of the order. */
  readonly otherwise: readonly { readonly streamFactor: number; readonly carried: CarriedOut; readonly addedSeconds: number | null }[];
}

/** One departure looked at closely. */
export interface CrossAnswer {
  readonly prepared: Prepared;
  /** From the berth, and from where open water begins. */
  readonly departAt: number;
  readonly openWaterFrom: number;
  readonly stream: StreamAcross | null;
  readonly ways: readonly ComparedWay[];
  /** The fastest way, a yardstick for the orders; null where none was sought (through traffic lanes). */
  readonly fastest: FastestWay | null;
  readonly advised: WayArrives | null;
  readonly reAim: readonly ReAimTable[];
  /** The departure's own line of the board, its time in hand reckoned over the hours that follow. */
  readonly row: BoardRow;
  /** Where two runs of a forecast are joined under the advised way, for want of one that covers it whole. */
  readonly seams: readonly Seam[];
  /** From which departures one heading is square in the lanes; null where there are none. */
  readonly squareDepartures: SquareDepartures | null;
  /** The whole passage from other places to leave from; null where none is given. */
  readonly staging: Staging | null;
  /** The days after the arrival at the berth; null where no way arrives. */
  readonly afterArrival: AfterArrival | null;
  /** What to do about an arrival in the dark; null where the advised way arrives in the light, or no light is asked for. */
  readonly standingOff: StandingOff | null;
  /** Fuel, and what hangs on the engine; null where no way arrives or no engine is used. */
  readonly fuel: FuelPlan | null;
  /** The price of aiming up-stream: of the advised order where it is headings to one place, else of one heading; null where that is not to be had. */
  readonly upStreamBias: UpStreamBias | null;
}

/** A departure's line of a board that was tried before, so that it is not tried again. */
export interface KnownDeparture {
  readonly kept: KeptDeparture;
  readonly row: BoardRow;
}

/** Compares the ways across for one departure from the berth. */
export function crossAt(prepared: Prepared, departAt: number): CrossAnswer {
  const close = closeAt(prepared, departAt, null);
  return {
    ...close,
    squareDepartures: departuresSquare(prepared),
    staging: stagingFor(prepared, departAt),
    afterArrival: close.row.arrivalAt === null ? null : afterArrivalAt(prepared, departAt, close.row.arrivalAt),
  };
}

/**
 * The same without what takes long, which is null: from where else to leave, from when one heading is square in the lanes, the days after
 * the arrival. `known`: the departure as a board has it, by these limits; null where there is none, and its time in hand is reckoned anew.
 */
export function closeAt(prepared: Prepared, departAt: number, known: KnownDeparture | null): CrossAnswer {
  const departure = known ?? tryOne(prepared, departAt);
  const steps = closeWays(prepared, departAt, departure.kept);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return closeJudged(prepared, step.value, departure);
  }
}

/** What of a departure that is looked at closely no limit changes. */
export interface CloseWays extends Pick<CrossAnswer, "departAt" | "openWaterFrom" | "stream" | "fastest" | "advised"> {
  readonly compared: readonly Omit<ComparedWay, "judged">[];
  readonly reAim: CrossAnswer["reAim"];
  readonly seams: CrossAnswer["seams"];
  readonly fuel: CrossAnswer["fuel"];
  readonly upStreamBias: CrossAnswer["upStreamBias"];
}

/** The time that a departure that was kept is under way; at its start alone where no way arrives. */
function timeOf(departAt: number, { run }: KeptDeparture): { readonly from: number; readonly until: number } {
  return { from: departAt, until: run.planned.kind === "arrives" ? run.planned.run.arrivalAt : departAt };
}

/** Reckons that, giving way between its parts to whoever drives it: some tens of milliseconds each. */
export function* closeWays(prepared: Prepared, departAt: number, kept: KeptDeparture): Generator<undefined, CloseWays> {
  const { planned } = kept;
  const passage = timeOf(departAt, kept);
  const trial = prepared.trialOf(0, passage);
  const { crossing } = trial;
  const { openWaterFrom } = outOfHarbour(trial, departAt);
  const found = waysAndBest(crossing, openWaterFrom, { closely: true });
  yield;
  const { ways, stream, fastest } = found;
  const earliest = earliestOf(found);
  const compared = ways.map((way): CloseWays["compared"][number] => {
    if (way.kind === "fails") return { way, costSeconds: null, otherwise: [] };
    const otherwise = STREAM_FACTORS.filter((factor) => factor !== 1).map((streamFactor) => {
      const carried = carryOut(crossing, way, { streamFactor });
      const addedSeconds = carried.run.kind === "arrives" ? carried.run.end.at - way.arrivalAt : null;
      return { streamFactor, carried, addedSeconds };
    });
    return { way, costSeconds: way.arrivalAt - earliest, otherwise };
  });
  const advised = recommended(ways, earliest);
  yield;
  const reAim =
    advised === null ? [] : reAimTables(crossing, advised, stream?.downStreamSide ?? downStreamSideOf(advised.track, crossing.line));
  yield;
  const side = stream?.downStreamSide ?? null;
  const aims = [advised, ...ways].find((way) => way?.kind === "arrives" && (way.name === "oneHeading" || way.name === "squareInLanes"));
  return {
    departAt,
    openWaterFrom,
    stream,
    fastest,
    advised,
    compared,
    reAim,
    seams: planned === null ? [] : seamFinder(prepared)(planned),
    fuel: advised === null ? null : fuelPlan(prepared, trial, advised, prepared.weather.wind.onPlane(prepared.plane, 0, passage)),
    upStreamBias: side === null || aims?.kind !== "arrives" ? null : upStreamBias(crossing, aims, side),
  };
}

/** Judges those ways by the passage's limits. */
export function closeJudged(prepared: Prepared, made: CloseWays, { kept, row }: KnownDeparture): CrossAnswer {
  const { compared, departAt, advised, ...same } = made;
  const passage = timeOf(departAt, kept);
  // What the departure was felt in is settled already: nothing is run again.
  const { around } = new SurroundingsOfRuns(prepared.trialOf, prepared.weather).settle(departAt, () => kept.run);
  const ways = compared.map(
    (one): ComparedWay => ({
      ...one,
      judged: one.way.kind === "fails" ? null : judgeWay(one.way, departAt, around, prepared.passage.limits, prepared.weather),
    }),
  );
  const wind = prepared.weather.wind.onPlane(prepared.plane, 0, passage);
  return {
    ...same,
    prepared,
    departAt,
    advised,
    ways,
    row,
    squareDepartures: null,
    staging: null,
    afterArrival: null,
    standingOff: advised === null ? null : standingOff(prepared, departAt, advised, prepared.trialOf(0, passage), wind),
  };
}

function tryOne(prepared: Prepared, departAt: number): KnownDeparture {
  const kept = keepDepartures(prepared.trialOf, [departAt], prepared.weather, undefined, timesAfter(departAt));
  if (kept === null) throw new Error("departures stopped without being asked to");
  const row = judgeBoard(kept, prepared.passage.limits, prepared.weather)[0];
  if (kept[0] === undefined || row === undefined) throw new Error("a departure was tried and has no line");
  return { kept: kept[0], row };
}

/** The days after an arrival at the berth at `berthAt`. */
export function afterArrivalAt(prepared: Prepared, departAt: number, berthAt: number): AfterArrival {
  const { weather, wholeSea, plane } = prepared;
  const span = { from: departAt, until: berthAt + LYING_SECONDS };
  return afterArrival(prepared, berthAt, weather.wind.onPlane(plane, 0, span), wholeSea?.onPlane(plane, span) ?? null);
}
