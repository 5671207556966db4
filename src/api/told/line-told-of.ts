import type { LeaveAnswer } from "../../core/plan/index.ts";
import type { BoardRow } from "../../core/window/index.ts";
import {
  dayAndClock,
  decidedInWords,
  doorInWords,
  handInWords,
  isUnknown,
  margin,
  reasonInWords,
  shortlyDecided,
  tenthsOf,
} from "../../words/index.ts";
import { rounded } from "../instant.ts";
import { BoardSky } from "./board-sky.ts";
import type { LineTold, VerdictTold } from "./board-told.ts";

/** A gate has no margin: a bar for it is drawn to the end of the scale. */
const SHUT_MARGIN = -2;

/** One line of the board, told. */
export function lineToldOf(
  answer: Pick<LeaveAnswer, "prepared" | "rows" | "chances">,
  row: BoardRow,
  sky: BoardSky = new BoardSky(answer.prepared.passage),
): LineTold {
  const zone = answer.prepared.passage.shipZone;
  const { smallestMargin, decidedBy } = row.verdict;
  const decided = decidedInWords(row, zone);
  const verdict = verdictOf(row);
  const isShutWithout = verdict === "closed" && (smallestMargin === null || decidedBy.kind === "gate");
  const tenths = tenthsOf(answer, row);
  const leaves = sky.leavesAt(row.departAt);
  return {
    departAt: leaves.departAt,
    clock: leaves.clock,
    light: sky.lightAt(row.departAt),
    verdict,
    margin: isShutWithout ? SHUT_MARGIN : smallestMargin === null ? null : rounded(smallestMargin, 4),
    figure: smallestMargin === null || decidedBy.kind === "gate" ? "" : margin(smallestMargin),
    inTen: tenths === "notJudged" ? null : tenths,
    words: shortlyDecided(row, decided.words),
    when: decided.at === null ? null : dayAndClock(decided.at, zone),
    reason: reasonInWords(row),
    hand: handInWords(row),
    door: row.inHand === null || row.inHand.door === null ? null : doorInWords(row.inHand.door),
  };
}

/** The verdict, what is marginal only for want of knowledge apart. */
export function verdictOf(row: BoardRow): VerdictTold {
  return isUnknown(row) ? "notJudged" : row.verdict.kind;
}
