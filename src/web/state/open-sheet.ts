import type { BoardTold } from "../../api/index.ts";
import type { KeptPassage } from "../ask/shapes.ts";

/** What is open on the page now, shared by its parts; only `sheet.ts` and what it starts change it. */
export interface OpenSheet {
  passageId: string;
  /** As the server keeps it; null until it has answered. */
  passage: KeptPassage | null;
  board: BoardTold | null;
  /** The departure chosen on the board, ISO 8601. */
  chosenAt: string | null;
  /** The departure that the address asked for before there was a board. */
  wantedAt: string | null;
}

/** What the document has typed at a limit's or the speed's path, as the board tells it; null for any other path. */
export function typedAt(board: BoardTold | null, path: string): string | null {
  if (board === null) return null;
  if (board.speed?.key === path) return board.speed.value;
  for (const { key, happy, never } of board.limits) {
    if (path === `limits.${key}.happy`) return happy;
    if (path === `limits.${key}.never`) return never;
  }
  return null;
}
