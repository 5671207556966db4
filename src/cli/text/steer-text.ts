import type { SteerAnswer, SteerCompass } from "../../api/index.ts";
import { meaningOf } from "../../core/answers/index.ts";
import { duration, eastWest, knots, miles, threeFigures } from "../../words/index.ts";
import { wrap } from "./wrap.ts";

/** The sum as text: what was given in a line, what to steer, what is made good, what lies between true and compass. */
export function steerText(answer: SteerAnswer): string {
  const { headingDegTrue, speedMadeGoodMps } = answer;
  const water =
    answer.currentRateMps > 0
      ? `a current setting ${threeFigures(answer.currentTowardDegTrue)} true at ${knots(answer.currentRateMps)}`
      : "still water";
  const boat = `${knots(answer.speedThroughWaterMps)} through the water in ${water}`;
  const parts: string[] = [];
  if (headingDegTrue === null || speedMadeGoodMps === null) {
    parts.push(wrap(`The track can't be held: ${threeFigures(answer.trackDegTrue ?? 0)} true at ${boat}.`));
    parts.push(wrap(`${whyNotHeld(answer)} Wait for less current, make good another track, or go faster through the water.`));
    return `${parts.join("\n\n")}\n`;
  }
  const { compass } = answer;
  const heading = compass?.kind === "compass" ? compass.heading : null;
  const helm = heading === null ? `${threeFigures(headingDegTrue)} true` : `${threeFigures(heading.headingDegCompass)} compass`;
  const course = answer.courseMadeGoodDegTrue;
  const time =
    answer.distanceMetres === null || answer.durationSeconds === null
      ? ""
      : `: ${miles(answer.distanceMetres)} nm in ${duration(answer.durationSeconds)}`;
  const makes =
    course === null
      ? "no way is made over the ground"
      : `${threeFigures(course)} true is made good at ${knots(speedMadeGoodMps)} over the ground${time}`;
  const steered = answer.given === "track" ? `Steer ${helm}` : `Steering ${helm}`;
  parts.push(wrap(`${steered}: ${makes}.`));
  const rows = [`  boat and water     ${knots(answer.speedThroughWaterMps)} in ${water}`];
  if (heading !== null) {
    rows.push(
      `  heading            ${threeFigures(heading.headingDegTrue)} true, ${threeFigures(heading.headingDegMag)} magnetic, ${threeFigures(heading.headingDegCompass)} compass`,
    );
  }
  if (course !== null) rows.push(`  bow off the course ${offWords(headingDegTrue, course)}`);
  parts.push(rows.join("\n"));
  if (compass !== null) parts.push(wrap(correctionWords(compass)));
  return `${parts.join("\n\n")}\n`;
}

/** What stops the boat: the part of the current across the track, or the part down it. */
function whyNotHeld(answer: SteerAnswer): string {
  const angleRad = ((answer.currentTowardDegTrue - (answer.trackDegTrue ?? 0)) * Math.PI) / 180;
  const acrossMps = Math.abs(answer.currentRateMps * Math.sin(angleRad));
  if (acrossMps >= answer.speedThroughWaterMps)
    return `Across the track the current runs at ${knots(acrossMps)}: the boat can't make up for it.`;
  return `Along the track the current runs at ${knots(-answer.currentRateMps * Math.cos(angleRad))} against the boat: she is set back.`;
}

/** How far the bow points off the course made good, and to which side. */
function offWords(headingDeg: number, courseDeg: number): string {
  const off = ((headingDeg - courseDeg + 540) % 360) - 180;
  const whole = Math.round(Math.abs(off));
  return whole === 0 ? "on it" : `${whole}° to ${off > 0 ? "starboard" : "port"} of it`;
}

function correctionWords(compass: SteerCompass): string {
  if (compass.kind === "true") return `Headings are true: ${meaningOf(compass.why).meaning} ${meaningOf(compass.why).whatToDo}`;
  const from = compass.from === "typed" ? "as typed" : "from the magnetic model";
  const deviation =
    compass.hasDeviation && compass.heading !== null
      ? `deviation ${eastWest(compass.heading.deviationDeg)} as typed`
      : "no deviation given";
  const caution = compass.caution ? " The field is weak here: use the compass with caution." : "";
  return `Variation ${eastWest(compass.variationDeg)} ${from}; ${deviation}.${caution}`;
}
