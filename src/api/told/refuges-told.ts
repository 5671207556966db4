import { z } from "zod";

/** What comes of turning for one port of refuge at one hour. */
export const refugeCellTold = z.object({
  state: z.enum(["enter", "struckOut", "notJudged", "none"]).describe("`none`: not reached"),
  soonest: z.boolean().describe("the soonest that can be entered"),
  arrival: z.string().nullable().describe("at its entrance: `09:35`, by ship's time"),
  steer: z.string().nullable().describe("the heading there, three figures"),
  why: z.string().nullable().describe("why it is struck out, not judged or not reached, short: `dark`, `sea 1.2 m`"),
});
export type RefugeCellTold = z.infer<typeof refugeCellTold>;

/** Where to run to, hour by hour. */
export const refugesTold = z.object({
  answer: z.array(z.string()).describe("sentences, the first to act on"),
  by: z.enum(["compass", "magnetic", "true"]),
  names: z.array(z.string()).describe("the columns: each port of refuge, short"),
  hours: z.array(
    z.object({
      clock: z.string(),
      acrossNm: z.number(),
      cells: z.array(refugeCellTold).describe("a column each"),
      wait: z
        .string()
        .nullable()
        .describe("where nothing can be entered on arrival: where to wait for what, the same words for hours that have it in common"),
    }),
  ),
  entrances: z.array(z.string()).describe("what is asked of each entrance, a line each"),
  warning: z.string(),
});
export type RefugesTold = z.infer<typeof refugesTold>;
