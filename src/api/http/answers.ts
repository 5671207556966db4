import { z } from "zod";
import { boardTold } from "../told/board-told.ts";

const revision = z.number().int();
const runNamed = z.object({ id: z.string() });

/** `athwart.issues/1`: all that stands in the way of what was asked. */
export const issuesTold = z.object({
  schema: z.literal("athwart.issues/1"),
  issues: z.array(z.object({ path: z.string(), code: z.string(), message: z.string(), whatToDo: z.string() })),
  run: runNamed.optional().describe("the run that would bring the answer"),
});
export type IssuesTold = z.infer<typeof issuesTold>;

export const passagesListed = z.object({
  passages: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      invented: z.boolean(),
      origin: z.enum(["demo", "opened"]),
      savedAt: z.string().describe("ISO 8601 in UTC"),
      revision,
    }),
  ),
});
export type PassagesListed = z.infer<typeof passagesListed>;

export const passageMade = z.object({ id: z.string(), name: z.string(), revision });
export type PassageMadeTold = z.infer<typeof passageMade>;

export const passageAsTyped = z.object({
  id: z.string(),
  name: z.string(),
  text: z.string().describe("as typed, now"),
  revision,
  canUndo: z.boolean(),
  canRedo: z.boolean(),
  files: z.array(z.object({ name: z.string(), sizeBytes: z.number() })),
});
export type PassageAsTyped = z.infer<typeof passageAsTyped>;

/** What came of a change; it is on the disk. */
export const changeTold = z.object({
  revision,
  canUndo: z.boolean(),
  canRedo: z.boolean(),
  run: runNamed.nullable().describe("a run that goes on: for the board, or for the chances that are still wanting on it"),
  board: boardTold.nullable().describe("judged anew, where nothing but limits was changed and the departures have been tried"),
});
export type ChangeTold = z.infer<typeof changeTold>;

export const filesTold = z.object({
  files: z.array(
    z.object({
      name: z.string(),
      inspection: z.record(z.string(), z.unknown()).describe("what it holds and whether it serves: a file of `athwart.inspect/1`"),
      named: z.boolean().describe("whether the passage names it"),
    }),
  ),
  run: runNamed.nullable(),
});

export const runBegun = z.object({ id: z.string() });
export const afterTold = z.object({ sentences: z.array(z.string()) });
