import { type Code, meaningOf } from "../core/answers/index.ts";
import {
  type Encounter,
  type GivenPeriod,
  type JudgedSystem,
  type ShipNote,
  seaStateOf,
  type WaveOverEdge,
  type WindSea,
} from "../core/sea/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { rounded } from "./instant.ts";

/** How the boat meets one system. */
export interface MetByBoat {
  readonly encounter: Encounter;
  /** Guidance written for ships; null where the boat's length isn't given. */
  readonly shipNotes: readonly ShipNote[] | null;
}

/** Waves on a current; speeds m/s, bearings true. */
export interface WaveAnswer {
  readonly currentTowardDegTrue: number | null;
  readonly currentRateMps: number;
  /** Null: deep water. */
  readonly depthMetres: number | null;
  /** The height holds in that depth and not in deep water outside. */
  readonly heightGivenThere: boolean;
  readonly currentAlreadyIn: boolean;
  readonly periodGiven: GivenPeriod;
  /** What the period given was multiplied by to have the peak's; null where no waves were given. */
  readonly periodFactor: number | null;
  readonly wind: {
    readonly windMps: number;
    readonly windFromDegTrue: number;
    readonly fetchMetres: number | null;
    readonly durationSeconds: number | null;
    readonly droppedSeconds: number | null;
    readonly raised: WindSea;
    /** By the second handbook. */
    readonly otherwise: WindSea;
    readonly beaufortForce: number;
  } | null;
  readonly systems: readonly (JudgedSystem & { readonly met: MetByBoat | null })[];
  readonly togetherMetres: number;
  /** Why there is no answer; null where there is one. */
  readonly why: Extract<Code, "seas-not-told-apart"> | null;
}

/** Waves on a current as JSON, `athwart.wave/1`. */
export function waveJson(answer: WaveAnswer) {
  const { wind, why } = answer;
  const state = seaStateOf(answer.togetherMetres);
  return {
    schema: "athwart.wave/1" as const,
    why: why === null ? null : { code: why, meaning: meaningOf(why).meaning },
    currentTowardDegTrue: orNull(answer.currentTowardDegTrue, 2),
    currentRateKn: rounded(knotsFromMps(answer.currentRateMps), 3),
    depthMetres: orNull(answer.depthMetres, 2),
    heightGivenIn: answer.heightGivenThere ? ("thisDepth" as const) : ("deepWater" as const),
    currentAlreadyIn: answer.currentAlreadyIn,
    periodGiven: answer.periodGiven,
    periodFactor: orNull(answer.periodFactor, 4),
    wind:
      wind === null
        ? null
        : {
            windKn: rounded(knotsFromMps(wind.windMps), 2),
            windFromDegTrue: rounded(wind.windFromDegTrue, 2),
            beaufortForce: wind.beaufortForce,
            fetchNm: wind.fetchMetres === null ? null : rounded(nmFromMetres(wind.fetchMetres), 3),
            durationSeconds: orNull(wind.durationSeconds, 0),
            droppedSeconds: orNull(wind.droppedSeconds, 0),
            raisesMetres: rounded(wind.raised.heightMetres, 3),
            raisesPeriodSeconds: orNull(wind.raised.periodSeconds, 2),
            limitedBy: wind.raised.limitedBy,
            otherHandbookMetres: rounded(wind.otherwise.heightMetres, 3),
            otherHandbookPeriodSeconds: orNull(wind.otherwise.periodSeconds, 2),
          },
    systems: answer.systems.map((one) => ({
      name: one.name,
      heightMetres: rounded(one.wave.heightMetres, 3),
      periodSeconds: rounded(one.wave.periodSeconds, 3),
      waveFromDegTrue: rounded(one.wave.fromDegTrue, 2),
      stillLengthMetres: rounded(one.still.lengthMetres, 2),
      feel: one.feel,
      comfort: one.comfort,
      governs: one.governs,
      standsMetres: rounded(one.standsMetres, 3),
      meeting: meetingJson(one.meeting),
      growing: growingJson(one.growing),
      edge: edgeJson(one.edge),
      encounter: one.met === null ? null : encounterJson(one.met.encounter),
      shipNotes: one.met?.shipNotes?.map((note) => note.kind) ?? null,
    })),
    togetherMetres: rounded(answer.togetherMetres, 3),
    seaStateCode: state.code,
    seaState: state.words,
  };
}

function orNull(value: number | null, decimals: number): number | null {
  return value === null ? null : rounded(value, decimals);
}

function meetingJson(sea: JudgedSystem["meeting"]) {
  const runs = sea.kind === "runs" ? sea : null;
  return {
    kind: sea.kind,
    currentAlongKn: rounded(knotsFromMps(sea.alongWaveMps), 3),
    heightMetres: orNull(runs?.heightMetres ?? null, 3),
    lengthMetres: orNull(runs?.lengthMetres ?? null, 2),
    steepness: orNull(runs?.steepness ?? null, 5),
    breaking: sea.breaking,
    breakingBy: runs?.breakingBy ?? [],
    carriesHeightMetres: orNull(sea.carriesHeightMetres, 3),
    relativePeriodSeconds: orNull(runs?.relativePeriodSeconds ?? null, 3),
    blocksUnderSeconds: sea.kind === "blocked" ? orNull(sea.blocksUnderSeconds, 3) : null,
  };
}

function growingJson(sea: JudgedSystem["growing"]) {
  if (sea === null) return null;
  return {
    relativeWindKn: rounded(knotsFromMps(sea.relativeWindMps), 2),
    relativeWindFromDegTrue: orNull(sea.relativeWindFromDegTrue, 2),
    fetchThroughWaterNm: sea.fetchThroughWaterMetres === null ? null : rounded(nmFromMetres(sea.fetchThroughWaterMetres), 3),
    limitedBy: sea.limitedBy,
    heightMetres: rounded(sea.heightMetres, 3),
    relativePeriodSeconds: orNull(sea.relativePeriodSeconds, 3),
    lengthMetres: orNull(sea.lengthMetres, 2),
    steepness: orNull(sea.steepness, 5),
    breaking: sea.breaking,
    breakingBy: sea.breakingBy,
  };
}

function edgeJson(edge: WaveOverEdge | null) {
  if (edge === null) return null;
  const runs = edge.kind === "runs" ? edge : null;
  return {
    kind: edge.kind,
    heightMetres: orNull(runs?.heightMetres ?? null, 3),
    lengthMetres: orNull(runs?.lengthMetres ?? null, 2),
    steepness: orNull(runs?.steepness ?? null, 5),
    waveFromDegTrue: orNull(runs?.fromDegTrue ?? null, 2),
    breaking: edge.kind === "blocked" || runs?.breaking === true,
  };
}

function encounterJson(encounter: Encounter) {
  return {
    periodSeconds: orNull(encounter.periodSeconds, 2),
    sector: encounter.sector,
    offBowDeg: rounded(encounter.offBowDeg, 1),
    overtaking: encounter.overtaking,
  };
}
