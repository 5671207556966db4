import { z } from "zod";

/** A verdict on a departure; `notJudged` is a marginal one that is so only because something about it is not known. */
export const verdictTold = z.enum(["open", "marginal", "closed", "notJudged"]);
export type VerdictTold = z.infer<typeof verdictTold>;

/** One departure as a line of the board. Words, clocks and figures are as they are read; `…At` are ISO 8601 in UTC. */
export const lineTold = z.object({
  departAt: z.string().describe("when the berth is left, ISO 8601 in UTC"),
  clock: z.string().describe("the same by ship's time: `20:00`"),
  light: z.enum(["night", "twilight", "day"]).describe("at departure"),
  verdict: verdictTold,
  margin: z.number().nullable().describe("the smallest margin: 1 at happy, 0 at never; null where there is none to draw"),
  figure: z.string().describe("the margin as it is read: `+0.65`, `< −1`; empty where there is none"),
  inTen: z.number().int().nullable().describe("of ten such crossings so many arrive with nothing past never; null where not tried"),
  words: z.string().describe("what decides: `gusts 34 kn`"),
  when: z.string().nullable().describe("when that is met: `Thu 10:00`"),
  reason: z.string().describe("what decides, without figures or times: what neighbouring lines have in common"),
  hand: z.string().describe("time in hand: `7 h 20`, `no door`; empty where closed"),
  door: z.string().nullable().describe("what shuts after that: `dark at the entrance`"),
});
export type LineTold = z.infer<typeof lineTold>;

/** A day of the board by ship's time. */
export const dayTold = z.object({
  weekday: z.string().describe("`Thursday`"),
  date: z.string().describe("`8 April`"),
  sun: z.string().nullable().describe("`06:10 to 17:38`, at the entrance; null where it does not rise or set"),
  lines: z.array(lineTold),
});
export type DayTold = z.infer<typeof dayTold>;

/** A limit of the skipper's, as typed and as it is changed. */
export const limitTold = z.object({
  key: z.string().describe("its key in the passage file: `windAgainstCurrent`"),
  name: z.string().describe("`wind against the stream`"),
  happy: z.string().describe("as typed: `14 kn`"),
  never: z.string().describe("as typed: `22 kn`"),
});
export type LimitTold = z.infer<typeof limitTold>;

/** A limit that is not set and may be: its two figures are only examples of how they are written. */
export const limitToSet = limitTold.describe("`happy` and `never` are figures to start from, docs/passage.md says whose");
export type LimitToSet = z.infer<typeof limitToSet>;

/** A source of water or weather. */
export const sourceTold = z.object({
  words: z.string().describe("what it is, when issued, how far it reaches"),
  loud: z.boolean().describe("whether it is stale, short or wanting: said loudly"),
});

/** The board, told: what stands at the head of the page and under *When to leave*. `athwart.board/1`. */
export const boardTold = z.object({
  schema: z.literal("athwart.board/1"),
  name: z.string().describe("the passage's name: `Pelu Road to Port Ansa`"),
  invented: z.boolean(),
  boat: z.string().describe("`Tansy, 5.6 kn through the water. 52.0 nm of open water, 119 true.`"),
  zones: z.string().describe("`Times are ship's time, UTC-8.`"),
  zone: z.string().describe("ship's zone, IANA or `UTC-8`"),
  answer: z.array(z.string()).describe("the answer in sentences, the first to act on"),
  best: z.string().nullable().describe("the departure that the answer is about, ISO 8601 in UTC; null where none is open"),
  days: z.array(dayTold),
  marginalBelow: z.number().describe("the margin below which a departure is marginal"),
  key: z.array(z.string()).describe("how the board is read, a sentence each"),
  speed: z
    .object({ value: z.string().describe("as typed: `5.6 kn`"), key: z.string() })
    .nullable()
    .describe("the cruising speed, where the boat goes by one"),
  limits: z.array(limitTold),
  toSet: z.array(limitToSet).describe("limits that are not set"),
  unset: z.string().describe("which limits are not set; empty where none is worth saying"),
  asides: z.array(z.string()).describe("paragraphs beside the answer: what the forecasts agree on, chance, seams"),
  sources: z.array(sourceTold),
  restsOn: z.array(z.string()).describe("assumptions that a skipper could dispute, a sentence each"),
  safety: z.string(),
});
export type BoardTold = z.infer<typeof boardTold>;
