import { type RefugeRun, type RefugesAnswer, type SteeringCompass, steeringCompass } from "../../core/plan/index.ts";
import { nmFromMetres } from "../../core/units/index.ts";
import {
  barredInWords,
  clock,
  entrancesInWords,
  firstHeading,
  noAnswerReason,
  northInWords,
  REFUGE_WARNING,
  refugeAssumptionsInWords,
  refugesInWords,
  runsInWords,
  soonestOf,
  struckOutInWords,
  waitingInWords,
} from "../../words/index.ts";
import { rounded } from "../instant.ts";
import type { RefugeCellTold, RefugesTold } from "./refuges-told.ts";

/** Where to run to, told hour by hour, a column for each port of refuge. */
export function refugesToldOf(answer: RefugesAnswer): RefugesTold {
  const { prepared, refuges, hours } = answer;
  const compass = steeringCompass(prepared, answer.openWaterFrom);
  const zone = prepared.passage.shipZone;
  return {
    answer: answer.running.length === 0 ? [...refugesInWords(answer)] : [runsInWords(answer), ...barredInWords(answer)],
    by: northInWords(compass),
    names: refuges.map(({ name }) => shortPlace(name)),
    hours: hours.map((hour) => {
      const soonest = soonestOf(hour);
      const runs = hour.runs[0] ?? [];
      return {
        clock: clock(hour.at, zone),
        acrossNm: rounded(nmFromMetres(hour.acrossMetres), 1),
        cells: refuges.map((refuge) => {
          const run = runs.find((one) => one.refuge === refuge);
          return run === undefined ? NOTHING : cellOf(answer, compass, run, run === soonest);
        }),
        wait: soonest === null ? waitingInWords(hour, zone) : null,
      };
    }),
    entrances: [...entrancesInWords(answer), ...refugeAssumptionsInWords(answer, compass)],
    warning: REFUGE_WARNING,
  };
}

const NOTHING: RefugeCellTold = { state: "none", soonest: false, arrival: null, steer: null, why: null };

function cellOf({ prepared }: RefugesAnswer, compass: SteeringCompass, one: RefugeRun, soonest: boolean): RefugeCellTold {
  const zone = prepared.passage.shipZone;
  const { run, verdict } = one;
  if (run.kind === "fails") {
    return { ...NOTHING, state: verdict === "notJudged" ? "notJudged" : "none", why: noAnswerReason(run.why) };
  }
  const first = one.struckOut[0];
  return {
    state: verdict,
    soonest,
    arrival: clock(run.arrivalAt, zone),
    steer: firstHeading(prepared, compass, run),
    why: first === undefined ? null : shortly(struckOutInWords(first, run.arrivalAt, zone)),
  };
}

/** The head of a longer reason: `dark; light 05:48, wait 4 h 16` is `dark`, `sea 1.2 m, never above 0.8 m` is `sea 1.2 m`. */
function shortly(words: string): string {
  return (words.split(/[;,]/)[0] ?? words).replace(" at chart datum", "").replace(" under the keel", " under keel");
}

/** A place's own name, without what marks it: `the fairway buoy off Port Ansa` is `Port Ansa`. */
export function shortPlace(name: string): string {
  return name
    .replace(/^(?:the )?(?:fairway |landfall |entrance )?(?:buoy|entrance|roads?|anchorage) (?:off|of|at) /i, "")
    .replace(/^the /, "");
}
