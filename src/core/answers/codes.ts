import type { CodeEntry } from "./code-table.ts";
import { boatCodes } from "./codes/boat.ts";
import { bulletinCodes } from "./codes/bulletin.ts";
import { calendarCodes } from "./codes/calendar.ts";
import { coastCodes } from "./codes/coast.ts";
import { commandCodes } from "./codes/command.ts";
import { earthCodes } from "./codes/earth.ts";
import { fieldCodes } from "./codes/field.ts";
import { fileCodes } from "./codes/file.ts";
import { gateCodes } from "./codes/gate.ts";
import { passageCodes } from "./codes/passage.ts";
import { passageFileCodes } from "./codes/passage-file.ts";
import { seaCodes } from "./codes/sea.ts";
import { serverCodes } from "./codes/server.ts";
import { storageCodes } from "./codes/storage.ts";
import { tideCodes } from "./codes/tides.ts";
import { unitCodes } from "./codes/unit.ts";

export type { CodeEntry } from "./code-table.ts";

/** The registry: every code, its meaning, and what to do about it. One table a room, joined here. */
export const codes = {
  ...unitCodes,
  ...calendarCodes,
  ...earthCodes,
  ...coastCodes,
  ...fieldCodes,
  ...boatCodes,
  ...passageCodes,
  ...gateCodes,
  ...fileCodes,
  ...bulletinCodes,
  ...passageFileCodes,
  ...commandCodes,
  ...storageCodes,
  ...seaCodes,
  ...serverCodes,
  ...tideCodes,
} as const;

export type Code = keyof typeof codes;

/** The registry's entry for a code. */
export function meaningOf(code: Code): CodeEntry {
  return codes[code];
}
