import type { NoAnswer } from "../answers/index.ts";
import { enginePower } from "../boat/index.ts";
import type { Position } from "../earth/index.ts";
import {
  alongOf,
  type Crossing,
  nodeAt,
  offOf,
  placeAt,
  RunsTo,
  type Surroundings,
  type Track,
  type WayArrives,
  type WayName,
} from "../passage/index.ts";
import { harbourSeconds, outOfHarbour, runPlanned, SurroundingsOfRuns } from "../window/index.ts";
import type { Prepared } from "./prepare.ts";
import { hoursOf, REFUGES_EVERY_SECONDS } from "./refuges/hours-of.ts";
import { EntranceJudge } from "./refuges/judge-entrance.ts";
import { inOrder, type RefugeRun, refugeRun, type WaitOff, whereToWait } from "./refuges/refuge-run.ts";
import { type RefugeToTry, refugesOf } from "./refuges/refuges-of.ts";
import { runningBoats } from "./refuges/sail-alone.ts";
import { type TurnBack, turnBack } from "./refuges/turn-back.ts";

/** How a boat runs for shelter: as she goes with the engine at hand, or under sail alone. */
export type Running = "withEngine" | "underSail";

/** Where to run to from one place of the way at one instant. */
export interface RefugeHour {
  readonly at: number;
  readonly where: Position;
  readonly acrossMetres: number;
  /** Off the line, starboard positive. */
  readonly offMetres: number;
  /** Burnt since the berth; null where the burn is not stated. */
  readonly fuelUsedLitres: number | null;
  /** One list for each of `RefugesAnswer.running`: the soonest that can be entered first, then the struck-out ones. */
  readonly runs: readonly (readonly RefugeRun[])[];
  /** By the first of `RefugesAnswer.running`: where to wait, where nothing can be entered on arrival; null where something can, or nothing opens. */
  readonly wait: WaitOff | null;
}

/** Where to run to, hour by hour, along one way across. */
export interface RefugesAnswer {
  readonly prepared: Prepared;
  /** From the berth, and from where open water begins. */
  readonly departAt: number;
  readonly openWaterFrom: number;
  readonly refuges: readonly RefugeToTry[];
  /** The way that is left; null where it does not arrive, and why. */
  readonly way: WayArrives | null;
  readonly why: NoAnswer | null;
  /** How the boat may run, the way that ranks the refuges first. */
  readonly running: readonly Running[];
  readonly hours: readonly RefugeHour[];
  /** Null where no way is left. */
  readonly turnBack: TurnBack | null;
}

export interface RefugesOptions {
  readonly everySeconds?: number;
  /** The way that is left for a refuge; left out: the advised one. */
  readonly way?: WayName;
}

/** Where to run to for every hour of the way across that leaves the berth at `departAt`. */
export function refugesAt(prepared: Prepared, departAt: number, options: RefugesOptions = {}): RefugesAnswer {
  const { everySeconds = REFUGES_EVERY_SECONDS } = options;
  const { run, around: felt } = new SurroundingsOfRuns(prepared.trialOf, prepared.weather).settle(departAt, runPlanned);
  const trial = felt.trials[0];
  const wind = felt.winds[0];
  if (trial === undefined || wind === undefined) throw new Error("a departure was settled without surroundings");
  const { crossing } = trial;
  const { openWaterFrom } = outOfHarbour(trial, departAt);
  const refuges = refugesOf(prepared.passage);
  const chosen = options.way === undefined ? run.advised : run.ways.find((one) => one.name === options.way);
  const boats = runningBoats(prepared.passage.boat);
  const running = (["withEngine", "underSail"] as const).filter((one) => boats[one] !== null);
  const head = { prepared, departAt, openWaterFrom, refuges, running };
  if (chosen?.kind !== "arrives") {
    const why = chosen?.why ?? run.ways.flatMap((one) => (one.kind === "fails" ? [one.why] : []))[0] ?? null;
    return { ...head, way: null, why, hours: [], turnBack: null };
  }
  const { plane, line } = prepared;
  const around: Surroundings = { ...crossing.around, wind, windCovers: prepared.weather.wind.covers };
  const { wholeSea } = prepared;
  const weather = {
    wind,
    windCovers: prepared.weather.wind.covers,
    sea: wholeSea?.onPlane(plane, { from: departAt, until: chosen.arrivalAt }) ?? null,
    seaCovers: wholeSea?.covers ?? null,
  };
  const fleets = running.map((one) => refuges.map((refuge) => runsTo(crossing, around, boats, one, plane.toPlane(refuge.position))));
  const { draughtMetres } = prepared.passage.boat;
  const judges = new Map(
    refuges.map((refuge) => [refuge, new EntranceJudge(refuge, plane.toPlane(refuge.position), draughtMetres, weather)]),
  );
  const judgeOf = (refuge: RefugeToTry): EntranceJudge => judges.get(refuge) as EntranceJudge;
  const fuelUsed = fuelUsedAlong(prepared, chosen.track, harbourSeconds(trial).out);
  const usableLitres = prepared.passage.boat.power?.usableFuelLitres ?? null;
  const times = hoursOf(chosen.departAt, chosen.arrivalAt, everySeconds, prepared.passage.shipZone);
  const hours = times.map((at): RefugeHour => {
    const { xMetres, yMetres } = placeAt(chosen.track, at);
    const usedLitres = fuelUsed === null ? null : fuelUsed(at);
    const fuel = usedLitres === null || usableLitres === null ? null : { usedLitres, usableLitres };
    const runs = fleets.map((fleet) =>
      inOrder(
        refuges.map((refuge, k) => {
          const place = plane.toPlane(refuge.position);
          const distanceMetres = Math.hypot(place.xMetres - xMetres, place.yMetres - yMetres);
          return refugeRun(refuge, (fleet[k] as RunsTo).from(xMetres, yMetres, at), distanceMetres, judgeOf(refuge), fuel);
        }),
      ),
    );
    const first = runs[0] ?? [];
    return {
      at,
      where: plane.toPosition(xMetres, yMetres),
      acrossMetres: alongOf(line, xMetres, yMetres),
      offMetres: offOf(line, xMetres, yMetres),
      fuelUsedLitres: usedLitres,
      runs,
      wait: first.some((one) => one.verdict === "enter") ? null : whereToWait(first, judgeOf),
    };
  });
  const [best] = running;
  const back = best === undefined ? null : runsTo(crossing, around, boats, best, { xMetres: line.fromX, yMetres: line.fromY });
  return {
    ...head,
    way: chosen,
    why: null,
    hours,
    turnBack: back === null ? null : turnBack(chosen, back, [chosen.departAt, ...times.filter((at) => at > chosen.departAt)]),
  };
}

function runsTo(
  crossing: Crossing,
  around: Surroundings,
  boats: ReturnType<typeof runningBoats>,
  running: Running,
  place: { readonly xMetres: number; readonly yMetres: number },
): RunsTo {
  const boat = boats[running];
  if (boat === null) throw new Error(`no boat to run ${running}`);
  // Only a boat that the wind moves needs it, and a simulator of its own. Beating to windward is not reckoned, so that under sail alone there
  // is the one heading or nothing.
  return new RunsTo(crossing, boat, place, boat.dependsOnWind ? around : crossing.around, running === "withEngine");
}

/** Litres burnt by an instant of the way, the leg out of harbour with the engine on; null where the burn is not stated. */
function fuelUsedAlong(prepared: Prepared, track: Track, outSeconds: number): ((at: number) => number) | null {
  const { power, waterlineLengthMetres } = prepared.passage.boat;
  const burn = power === null ? null : (enginePower(power, waterlineLengthMetres)?.burnLitresPerHour ?? null);
  if (burn === null) return null;
  const used = new Float64Array(track.count);
  used[0] = (burn * outSeconds) / 3600;
  for (let i = 1; i < track.count; i++) used[i] = (used[i - 1] as number) + litresBetween(track, i - 1, track.atSeconds[i] as number);
  return (at) => {
    const node = nodeAt(track, at);
    return (used[node] as number) + litresBetween(track, node, at);
  };
}

function litresBetween(track: Track, node: number, until: number): number {
  return ((until - (track.atSeconds[node] as number)) / 3600) * (track.burnLitresPerHour[node] as number);
}
