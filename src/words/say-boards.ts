import type { Board, SailHandling, UnderSail } from "../core/passage/index.ts";
import type { Prepared, SteeringCompass } from "../core/plan/index.ts";
import { noAnswerInWords } from "./say-limit.ts";
import { headingFigure } from "./say-steering.ts";
import { clock, duration } from "./say-time.ts";

const SAILED = { closeHauled: "close-hauled", running: "running", course: "on the course" } as const;

const several = (count: number, one: string): string => `${count === 0 ? "no" : count} ${one}${count === 1 ? "" : "s"}`;

/** Tacks and gybes counted: `4 tacks`, `1 tack and 2 gybes`, `no tack`. */
export function tacksInWords({ tacks, gybes }: { readonly tacks: number; readonly gybes: number }): string {
  if (tacks === 0 && gybes === 0) return "no tack";
  return [tacks > 0 ? several(tacks, "tack") : "", gybes > 0 ? several(gybes, "gybe") : ""].filter((part) => part !== "").join(" and ");
}

/** The plan under sail as an order, and what it rests on. */
export function boardsInWords({ plan, handling }: UnderSail, prepared: Prepared, compass: SteeringCompass): string {
  const zone = prepared.passage.shipZone;
  if (plan.kind === "fails") return `Under sail no plan comes of the fastest way: ${noAnswerInWords(plan.why, zone)}.`;
  const boards = plan.boards.map((board) => boardInWords(board, prepared, compass, zone)).join("; ");
  return `The plan under sail: ${boards}; there ${clock(plan.arrivalAt, zone)}. ${handlingInWords(handling)}`;
}

function boardInWords(board: Board, prepared: Prepared, compass: SteeringCompass, zone: string): string {
  const turned = headingFigure(prepared, compass, board.headingDegTrue) === headingFigure(prepared, compass, board.lastHeadingDegTrue);
  const until = turned ? "" : ` turning to ${headingFigure(prepared, compass, board.lastHeadingDegTrue)}`;
  const about = board.after === null ? "" : `${board.after}, `;
  const wind = `wind over the ${board.windOver} side at ${Math.round(board.trueWindAngleDeg)}°`;
  return `${clock(board.fromAt, zone)} ${about}${headingFigure(prepared, compass, board.headingDegTrue)}${until} ${SAILED[board.sailed]}, ${wind}`;
}

/** What the plan rests on that a skipper could dispute. */
function handlingInWords({ leastBoardSeconds, tackSeconds, gybeSeconds }: SailHandling): string {
  return (
    `A tack is taken to cost ${tackSeconds} s and a gybe ${gybeSeconds} s without way, and no board is kept for less than ` +
    `${duration(leastBoardSeconds)} but for a tack that there is no way without; the best angle on the wind is held as the wind goes. ` +
    "In the fastest under sail itself tacks and gybes cost nothing: nothing is faster."
  );
}
