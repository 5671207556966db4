import { z } from "zod";

const verdict = z.enum(["open", "shut", "notJudged"]);
/** A share of the clock's length, 0 at its beginning. */
const share = z.number();

/** The clock of one bar or cut over the day on which she is there, told. Clocks are those of the gate. */
export const inletTold = z.object({
  name: z.string(),
  head: z.string().describe("`Thursday 8 April 2027, UTC-8`"),
  answer: z.string().describe("the sentence to act on"),
  thereAt: share.nullable().describe("when she passes it or comes to it; null where that is outside"),
  there: z.string().describe("`passed 08:10`, `reached 03:00, shut`"),
  hours: z.array(z.object({ at: share, clock: z.string() })).describe("every third hour"),
  nights: z.array(z.object({ from: share, until: share })),
  points: z
    .array(z.object({ at: share, tideMetres: z.number().nullable(), streamKn: z.number().nullable() }))
    .describe("for the curves; the stream with the flood positive, null where none is stated"),
  wantedTideMetres: z.number().nullable().describe("the height of tide that is wanted without any waves; null where no depth is stated"),
  spells: z.array(
    z.object({
      from: share,
      until: share,
      verdict,
      opens: z.string().nullable().describe("the clock at its beginning; null where the day begins with it"),
      words: z.string().describe("why it is shut, each reason at its worst; empty where open"),
    }),
  ),
  rows: z.array(
    z.object({
      clock: z.string(),
      verdict,
      night: z.boolean(),
      tide: z.string(),
      keel: z.string(),
      stream: z.string(),
      sea: z.string(),
      wind: z.string(),
      why: z.string().describe("in a word or two: `water, breaks`; empty where open"),
    }),
  ),
  notes: z.array(z.string()).describe("what it rests on"),
});
export type InletTold = z.infer<typeof inletTold>;
