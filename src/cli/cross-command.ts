import { crossJson } from "../api/index.ts";
import { isNotSquare } from "../core/passage/index.ts";
import { type CrossAnswer, crossAt, type SteeringCompass, steeringCompass } from "../core/plan/index.ts";
import type { OpenedPassage } from "../storage/index.ts";
import {
  afterArrivalInWords,
  assumptionsInWords,
  biasInWords,
  boardsInWords,
  compassInWords,
  engineFailureInWords,
  fuelInWords,
  leavingInWords,
  noAnswerInWords,
  northInWords,
  noWayInWords,
  offStrengthInWords,
  orderInWords,
  ordersInALine,
  RE_AIM_READ,
  SAFETY_WORDS,
  seamInWords,
  standingOffInWords,
  streamDoubtsInWords,
  streamTotalInWords,
  wayName,
  whenInDoubtInWords,
  yardstickInWords,
} from "../words/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { departureTyped } from "./departure-time.ts";
import { headText, notFitText } from "./leave-command.ts";
import { DEMO_OPTION, DEMO_WORDS, openGiven } from "./opened.ts";
import { gatesText } from "./text/gates-text.ts";
import { lanesText } from "./text/lanes-text.ts";
import { plotText } from "./text/plot-text.ts";
import { stagingText } from "./text/staging-text.ts";
import { waysJudgedText } from "./text/ways-judged-text.ts";
import { bestLine, reAimText, waysText } from "./text/ways-text.ts";
import { wrap } from "./text/wrap.ts";

export const crossCommand: AddCommand = (program, context, done) => {
  program
    .command("cross")
    .description("the ways across for one departure, side by side, and the order to steer by")
    .argument("[PASSAGE]", "a passage file")
    .requiredOption("--at <TIME>", "when to leave the berth: 2027-04-07 2200, THU 2200, 2027-04-08T06:00Z")
    .option(DEMO_OPTION, DEMO_WORDS)
    .option("--json", "the whole answer as JSON (athwart.cross/1)")
    .addHelpText(
      "after",
      '\nExamples:\n  athwart cross --demo --at "2027-04-07 2200"\n  athwart cross --demo --at "2027-04-08T06:00Z" --json\n\nA time without a zone is ship\'s time. Exit: 0 a way arrives, 1 none does, 2 bad\ninput.',
    )
    .action(async (file: string | undefined, options: { at: string; demo?: string; json?: boolean }) => {
      const json = options.json === true;
      const opened = await openGiven(file, options.demo);
      if (!opened.ok) return done(tellIssues(context, opened.issues, json));
      const { prepared } = opened.value;
      const at = departureTyped(options.at, "--at", prepared);
      if (!at.ok) return done(tellIssues(context, at.issues, json));
      const answer = crossAt(prepared, at.value);
      context.out(json ? `${JSON.stringify(crossJson(answer), null, 2)}\n` : crossText(opened.value, answer));
      done(answer.advised === null ? NO_ANSWER : ANSWERED);
    });
};

/** One departure as text: the order, the verdict, the ways, the track across the stream, the re-aim table. */
export function crossText(opened: OpenedPassage, answer: CrossAnswer): string {
  const { prepared } = opened;
  const zone = prepared.passage.shipZone;
  const compass = steeringCompass(prepared, answer.openWaterFrom);
  const { advised, row } = answer;
  const parts = [headText(opened, answer.departAt, answer.row.arrivalAt ?? answer.departAt)];
  if (advised === null) {
    const [none = "", covered = ""] = noWayInWords(answer);
    parts.push(wrap(none));
    parts.push(
      answer.ways.map(({ way }) => `  ${wayName(way.name)}: ${way.kind === "fails" ? noAnswerInWords(way.why, zone) : ""}`).join("\n"),
    );
    if (answer.fastest?.kind === "arrives") parts.push(bestLine(answer).join("\n"));
    parts.push(...sailText(answer, compass));
    parts.push(wrap(covered));
  } else {
    const closed = row.verdict.kind === "closed";
    parts.push(wrap(leavingInWords(answer)));
    const yardstick = yardstickInWords(answer);
    const gates = gatesText(row);
    if (gates !== "") parts.push(gates);
    parts.push(wrap(`${closed ? "Were it open, the order would be: " : ""}${orderInWords(answer, compass, advised).join(" ")}`));
    if (answer.standingOff !== null) parts.push(wrap(standingOffInWords(answer.standingOff, prepared, compass, answer.departAt)));
    parts.push(waysText(answer));
    parts.push(wrap(waysJudgedText(answer)));
    parts.push(
      wrap(
        `→ the order: the simplest way within five minutes of the best${answer.ways.some(({ way }) => way.kind === "arrives" && isNotSquare(way)) && !isNotSquare(advised) ? " of those that are square in the traffic lanes" : ""}. ${yardstick === "" ? "" : `${yardstick} `}Times are from buoy to buoy, without the harbours. Strays: up-stream and down-stream of the straight line. Right: time added when the stream runs at that share of what was foretold, and the miles off the line (u up, d down) where the order ends; it is kept until clear, then the track is held.`,
      ),
    );
    parts.push(...sailText(answer, compass));
    const others = answer.ways.flatMap(({ way }) =>
      way.kind === "arrives" && way !== advised && way.name !== "bowOnDestination" ? [way] : [],
    );
    if (others.length > 0)
      parts.push(
        wrap(`The other orders: ${others.map((way) => `${wayName(way.name)}: ${ordersInALine(prepared, compass, way)}`).join("; ")}.`),
      );
    const lanes = lanesText(answer);
    if (lanes !== null) parts.push(lanes);
    parts.push(wrap([...offStrengthInWords(answer), ...streamTotalInWords(answer)].join(" ")));
    const bias = answer.upStreamBias === null ? null : biasInWords(answer.upStreamBias, prepared);
    if (bias !== null) parts.push(wrap(bias));
    parts.push(plotText(answer, advised));
    parts.push(reAimText(answer, compass));
    parts.push(
      wrap(
        `Re-aim: headings (${northInWords(compass)}) to the destination from where you are; u up-stream, d down-stream. ${RE_AIM_READ}${advised.name === "squareInLanes" ? " They are the headings outside the traffic lanes; in them keep the square one." : ""} ${whenInDoubtInWords(answer)}`,
      ),
    );
    if (advised.assumedWaterShare > 0)
      parts.push(
        wrap(
          `For ${Math.round(advised.assumedWaterShare * 100)} % of the time the current was not known and was assumed as the passage file says.`,
        ),
      );
    if (answer.fuel !== null) {
      parts.push(wrap(fuelInWords(answer.fuel, prepared)));
      parts.push(wrap(engineFailureInWords(answer.fuel.engineFails, prepared)));
    }
  }
  if (answer.afterArrival !== null) parts.push(wrap(afterArrivalInWords(answer.afterArrival, prepared).join(" ")));
  if (answer.staging !== null) parts.push(stagingText(answer.staging, zone, prepared.passage.arrivalZone));
  const notFit = notFitText(prepared);
  if (notFit !== "") parts.push(notFit);
  const doubts = streamDoubtsInWords(prepared, answer.departAt, answer.row.arrivalAt ?? answer.departAt + 86400);
  if (doubts.length > 0) parts.push(wrap(doubts.join(" ")));
  for (const seam of answer.seams) parts.push(wrap(`No run covers the passage whole. ${seamInWords(seam, zone)}`));
  parts.push(wrap(compassInWords(compass)));
  parts.push(
    assumptionsInWords(prepared)
      .map((line) => wrap(line, 80, "    ", "  "))
      .join("\n"),
  );
  parts.push(wrap(`${SAFETY_WORDS}${prepared.passage.invented ? " Everything in this passage is invented, for demonstration." : ""}`));
  return `${parts.join("\n\n")}\n`;
}

/** The boards of the plan under sail, if there is one. */
function sailText({ fastest, prepared }: CrossAnswer, compass: SteeringCompass): string[] {
  if (fastest?.kind !== "arrives" || fastest.underSail === null) return [];
  return [wrap(boardsInWords(fastest.underSail, prepared, compass))];
}
