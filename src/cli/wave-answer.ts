import type { MetByBoat, WaveAnswer } from "../api/index.ts";
import {
  beaufortOf,
  COASTAL_MANUAL_GROWTH,
  encounterOf,
  type JudgedSystem,
  judgeSystem,
  judgeWindSea,
  notesForShips,
  peakPeriodOf,
  seaLeftMetres,
  splitSea,
  togetherMetres,
  type WaveSystem,
  windSea,
  windSeaSystem,
} from "../core/sea/index.ts";
import { motionToward, turnDeg, type WindRange, wrap360Deg } from "../core/units/index.ts";
import type { WaveQuestion } from "./wave-flags.ts";

/** Reckons what `wave` was asked. */
export function reckonWaves(asked: WaveQuestion): WaveAnswer {
  const { depthMetres } = asked;
  const current = motionToward(asked.current.rateMps, asked.current.towardDegTrue ?? 0);
  const wind = asked.wind === null ? null : windReckoned(asked, asked.wind);
  const over =
    asked.wind === null || wind === null
      ? null
      : {
          wind: motionToward(wind.windMps, wind.windFromDegTrue + 180),
          current,
          fetchMetres: wind.fetchMetres,
          durationSeconds: wind.durationSeconds,
          depthMetres,
        };
  const raised = over === null ? null : judgeWindSea(over, wind?.droppedSeconds ?? null);
  // A sea that is still being raised is the energy of one growing; a swell's spectrum is narrower still, so the same factor is on the safe side.
  const peak = asked.waves === null ? null : peakPeriodOf(asked.waves.periodSeconds, asked.periodGiven, "growing");
  const given: WaveSystem | null = asked.waves === null || peak === null ? null : { ...asked.waves, periodSeconds: peak.periodSeconds };
  const judge = (name: JudgedSystem["name"], wave: WaveSystem): JudgedSystem =>
    judgeSystem(name, wave, current, depthMetres, {
      givenInDepthMetres: asked.heightGivenThere ? depthMetres : null,
      heightIncludesCurrent: asked.currentAlreadyIn,
    });

  let systems: readonly JudgedSystem[] = [];
  let why: WaveAnswer["why"] = null;
  if (given !== null && asked.isTotal) {
    const split = splitSea(given, asked.wind === null ? "notKnown" : (raised?.wave ?? null));
    if (split.kind === "notToldApart") why = "seas-not-told-apart";
    else if (split.kind === "allWindSea") systems = [judge("windSea", split.windSea)];
    else systems = [...(split.swell === null ? [] : [judge("swell", split.swell)]), ...(raised === null ? [] : [raised])];
  } else systems = [...(given === null ? [] : [judge("asGiven", given)]), ...(raised === null ? [] : [raised])];

  return {
    currentTowardDegTrue: asked.current.towardDegTrue,
    currentRateMps: asked.current.rateMps,
    depthMetres,
    heightGivenThere: asked.heightGivenThere,
    currentAlreadyIn: asked.currentAlreadyIn,
    periodGiven: asked.periodGiven,
    periodFactor: peak?.factor ?? null,
    wind,
    systems: systems.map((one) => ({ ...one, met: metByBoat(one, asked.boat) })),
    togetherMetres: togetherMetres(systems),
    why,
  };
}

function windReckoned(asked: WaveQuestion, wind: NonNullable<WaveQuestion["wind"]>): NonNullable<WaveAnswer["wind"]> {
  const windMps = wind.range.speedHighMps;
  const { fetchMetres, durationSeconds, droppedSeconds } = wind;
  const over = { windMps, fetchMetres, durationSeconds, depthMetres: asked.depthMetres };
  const windFromDegTrue = worstFrom(wind.range, asked.current.towardDegTrue);
  const raised = windSea(over);
  const left = windSeaSystem(raised, motionToward(windMps, windFromDegTrue + 180));
  return {
    windMps,
    windFromDegTrue,
    fetchMetres,
    durationSeconds,
    droppedSeconds,
    raised:
      droppedSeconds === null || left === null ? raised : { ...raised, heightMetres: seaLeftMetres(raised.heightMetres, droppedSeconds) },
    otherwise: windSea(over, COASTAL_MANUAL_GROWTH),
    beaufortForce: beaufortOf(windMps).force,
  };
}

/** Of a range of directions the one nearest to dead against the set; its middle in still water. */
function worstFrom({ fromDegTrue, arcDeg }: WindRange, setDegTrue: number | null): number {
  if (setDegTrue === null) return wrap360Deg(fromDegTrue + arcDeg / 2);
  const into = wrap360Deg(setDegTrue - fromDegTrue);
  if (into <= arcDeg) return setDegTrue;
  const ends = [fromDegTrue, wrap360Deg(fromDegTrue + arcDeg)] as const;
  return Math.abs(turnDeg(ends[0], setDegTrue)) <= Math.abs(turnDeg(ends[1], setDegTrue)) ? ends[0] : ends[1];
}

/** How the boat meets a system on the current; null where it is blocked, or nothing is known of the boat. */
function metByBoat({ wave, meeting }: JudgedSystem, boat: WaveQuestion["boat"]): MetByBoat | null {
  if (boat === null || meeting.kind === "blocked") return null;
  const encounter = encounterOf(meeting, wave.fromDegTrue, boat);
  const ship = boat.lengthMetres === null ? null : { lengthMetres: boat.lengthMetres, speedMps: boat.speedMps, rollPeriodSeconds: null };
  return { encounter, shipNotes: ship === null ? null : notesForShips(ship, meeting, encounter) };
}
