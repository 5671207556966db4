import type { CodeTable } from "../code-table.ts";

export const commandCodes = {} as const satisfies CodeTable;
