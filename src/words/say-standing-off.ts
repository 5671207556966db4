import { HOVE_TO_DRIFT_SHARE, HOVE_TO_OFF_DOWNWIND_DEG } from "../core/boat/index.ts";
import type { LiesTo } from "../core/passage/index.ts";
import type { Prepared, StandingOff, SteeringCompass } from "../core/plan/index.ts";
import { arrivalInWords } from "./say-leave.ts";
import { noAnswerInWords } from "./say-limit.ts";
import { miles, position, threeFigures } from "./say-quantity.ts";
import { headingInWords } from "./say-steering.ts";
import { clock, dayAndClock, duration } from "./say-time.ts";

/** What to do about an arrival in the dark: go slower, leave later, or lie to, each with its times. */
export function standingOffInWords(off: StandingOff, prepared: Prepared, compass: SteeringCompass, departAt: number): string {
  const { passage } = prepared;
  const zone = passage.shipZone;
  const arrive = (at: number): string => arrivalInWords(at, passage.arrivalZone, departAt, zone);
  const sentences = [`It is too dark to go in on arrival, ${arrive(off.plannedAt)} at ${passage.to.name}.`];
  if (off.lightAt === null) sentences.push("No light comes within a day and a half.");
  else {
    sentences.push(`Light enough from ${arrive(off.lightAt)}.`);
    sentences.push(
      off.slower === null
        ? `Going slower does not do it: not even half speed would arrive so late, or the order can't be carried out so slowly.`
        : `Slower: at ${Math.round(off.slower.speedShare * 100)} % of the speed from the start she arrives then.`,
    );
  }
  if (off.later !== null)
    sentences.push(`Later: leave ${dayAndClock(off.later.departAt, zone)} and arrive ${arrive(off.later.arrivalAt)}.`);
  else sentences.push("No departure within a day arrives in the light.");
  if (off.lyingTo?.kind === "liesTo") sentences.push(liesToInWords(off.lyingTo, prepared, compass, arrive));
  else if (off.lyingTo !== null) sentences.push(`Lying to off it does not serve: ${noAnswerInWords(off.lyingTo.why, zone)}.`);
  return sentences.join(" ");
}

function liesToInWords(lying: LiesTo, prepared: Prepared, compass: SteeringCompass, arrive: (at: number) => string): string {
  const zone = prepared.passage.shipZone;
  const place = ({ xMetres, yMetres }: LiesTo["from"]): string => {
    const { latitudeDeg, longitudeDeg } = prepared.plane.toPosition(xMetres, yMetres);
    return position(latitudeDeg, longitudeDeg);
  };
  const steer = lying.run.orders[0]?.steer;
  const steering = steer?.kind === "heading" ? `, steer ${headingInWords(prepared, compass, steer.headingDegTrue)}` : "";
  const drift = `drifting ${miles(lying.driftMetres)} miles toward ${threeFigures(lying.driftTowardDegTrue)} true in ${duration(lying.drawAt - lying.fromAt)}`;
  return (
    `Lying to: heave to ${dayAndClock(lying.fromAt, zone)} in ${place(lying.from)} on the ${lying.tack} tack, ${drift}; ` +
    `let draw ${clock(lying.drawAt, zone)} in ${place(lying.until)}${steering}, arrive ${arrive(lying.run.arrivalAt)}. ` +
    `Drift is taken as the current and ${HOVE_TO_DRIFT_SHARE * 100} % of the wind, ${HOVE_TO_OFF_DOWNWIND_DEG}° off down-wind (Allen & Plourde 1999, a yacht with a fin keel); your boat's own comes first. ` +
    "While she lies there your limits are not judged."
  );
}
