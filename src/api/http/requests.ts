import { z } from "zod";

/** The longest text of a passage that is taken, characters. */
const LONGEST_TEXT = 4_000_000;

const passageId = z
  .string()
  .regex(/^[A-Za-z0-9-]{1,64}$/)
  .describe("a passage's id: `demo`, `demo-averil`, or as the list has it");

/** The instants that are asked about: no forecast lies outside these years. */
const instant = z
  .string()
  .regex(/^(?:19[7-9]|20\d|21\d)\d-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d{1,3})?)?Z$/, "an instant from 1970 to 2199, as 2027-04-08T04:00:00Z")
  .refine((text) => Number.isFinite(Date.parse(text)), "an instant that there is")
  .describe("an instant, ISO 8601 in UTC: `2027-04-08T04:00:00Z`");

export const ofPassage = z.object({ id: passageId });
export const ofDeparture = z.object({ id: passageId, at: instant });
export const ofRun = z.object({ id: z.uuid().describe("a run's id") });
export const paperQuery = z.object({ at: instant });

const revision = z.number().int().min(1).max(Number.MAX_SAFE_INTEGER).describe("the revision that was read; an older one is refused");

export const textChange = z.object({ text: z.string().min(1).max(LONGEST_TEXT).describe("the whole passage file"), revision });

export const passageEdits = z.object({
  revision,
  edits: z
    .array(
      z.object({
        path: z.string().min(1).max(200).describe("a key as issues name it: `limits.wind.never`"),
        typed: z.string().max(2000).nullable().describe("what is to stand there, as typed: `24 kn`; null takes the entry out"),
      }),
    )
    .min(1)
    .max(100),
});

export const sourceNamed = z.object({
  revision,
  file: z.string().min(1).max(255).describe("a stored file's name"),
  as: z.enum(["water", "weather"]),
});

export const nothingSaid = z.object({}).nullish();
