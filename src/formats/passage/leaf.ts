import { z } from "zod";

/** What an entry may be beside text in the published schema: a bare number, a bare true or false, or a nought, which needs no unit. */
export type Bare = "number" | "boolean" | "nought";

/**
 * One entry as the skipper types it: text with its unit. Here the schema only says that it is text; the quantity is read at use, by
 * the unit's own parser.
 */
export function entry(description: string, examples: readonly string[], bare?: Bare) {
  return z.string().meta({ description, examples: [...examples], ...(bare === undefined ? {} : { bare }) });
}

export const text = (description: string, example: string) => entry(description, [example]);
export const length = (description: string, ...examples: string[]) => entry(`${description} A length with its unit.`, examples, "nought");
export const speed = (description: string, ...examples: string[]) => entry(`${description} A speed with its unit.`, examples, "nought");
export const bearing = (description: string, ...examples: string[]) =>
  entry(`${description} Degrees from true north, 0 to 360.`, examples, "number");
export const angle = (description: string, ...examples: string[]) => entry(`${description} An angle with its unit.`, examples, "nought");
export const factor = (description: string, ...examples: string[]) => entry(`${description} A plain number.`, examples, "number");
export const position = (description: string) =>
  entry(`${description} Latitude, then longitude: degrees and minutes with N or S, E or W.`, ["17 32.4S 149 50.2W"]);
export const time = (description: string) =>
  entry(`${description} Date, then time of day; a zone after it where it is not ship's time (\`zones.ship\`).`, [
    "2027-04-06 0600",
    "2027-04-06 1600 UTC",
  ]);
export const fileName = (description: string, example: string) =>
  entry(`${description} A file's name, relative to the folder of the passage file.`, [example]);
