import { z } from "zod";
import { lineTold, verdictTold } from "./board-told.ts";
import { inletTold } from "./inlet-told.ts";
import { refugesTold } from "./refuges-told.ts";
import { sectionTold } from "./section-told.ts";

/** A limit of one departure: how near it comes to *never*, when and where. */
export const limitMetTold = z.object({
  name: z.string().describe("`gusts`"),
  judged: z.boolean(),
  margin: z.number().nullable().describe("null where not judged"),
  figure: z.string().describe("`+0.65`; empty where not judged"),
  words: z.string().describe("the worst of it: `gusts 24 kn`; or why it is not judged"),
  when: z.string().nullable(),
  across: z.string().nullable().describe("miles across, or `in harbour`"),
  limit: z.string().describe("`gusts 18 to 29 kn`"),
  pastNever: z.string().nullable().describe("from when it is past never: `Thu 11:00`"),
});
export type LimitMetTold = z.infer<typeof limitMetTold>;

/** How a way is drawn, and what it is called beside its line. */
export const wayTold = z.object({
  letter: z.string().describe("`A`: stands on its line and in the table"),
  name: z.string().describe("`one heading`"),
  key: z.string().describe("the way's name in JSON answers: `oneHeading`, or `fastest`"),
  role: z.enum(["order", "yardstick", "other"]).describe("the order that is advised; the fastest there is; any other"),
  arrives: z.boolean(),
  why: z.string().nullable().describe("why it does not arrive"),
  takes: z.string().describe("`9 h 35`; empty where it does not arrive"),
  costs: z.string().describe("against the earliest: `+4 min`, `under 1 min`"),
  up: z.string().describe("miles up-stream of the line at most"),
  down: z.string(),
  fuel: z.string().describe("litres; empty where the burn is not known"),
  verdict: verdictTold.nullable().describe("by the limits along its own path"),
  verdictWords: z.string(),
  orders: z.string().describe("what is steered, in a line"),
  otherwise: z
    .array(z.object({ streamFactor: z.number(), words: z.string() }))
    .describe("what comes of the order with more or less stream: `+12 min`, `2.2 nm down-stream when clear`"),
});
export type WayTold = z.infer<typeof wayTold>;

/** Headings to the destination from where the boat finds herself. */
export const reAimTold = z.object({
  by: z.enum(["compass", "magnetic", "true"]).describe("what the headings are by"),
  offNm: z.array(z.number()).describe("miles off the expected path, down-stream positive: the columns"),
  tables: z.array(
    z.object({
      streamFactor: z.number(),
      rows: z.array(
        z.object({
          acrossNm: z.number(),
          clock: z.string().describe("when the boat should be there"),
          headings: z.array(z.string().nullable()).describe("three figures, a column each; null where none leads there"),
        }),
      ),
    }),
  ),
  order: z.string().nullable().describe("the heading of the order, three figures; null where it is not one heading"),
  axisAcrossNm: z.number().nullable().describe("mid-stream"),
  notes: z.array(z.string()).describe("how it is read, and the price of aiming up-stream"),
});
export type ReAimTold = z.infer<typeof reAimTold>;

/** One departure looked at closely: *How to steer* and *If it goes wrong*. `athwart.departure/1`. */
export const departureTold = z.object({
  schema: z.literal("athwart.departure/1"),
  line: lineTold.describe("its own line of the board"),
  leaving: z.string().describe("`Leaving Thu 8 Apr 2027, 00:00 UTC-8: open, by gusts 20 kn, Thu 10:00. In hand 2 h 36 before …`"),
  limits: z.array(limitMetTold).describe("every limit, the nearest to never first"),
  inHand: z.string().describe("the parts of the time in hand; empty where closed"),
  gates: z.array(z.string()).describe("gates on the way, a line each"),
  inlets: z.array(inletTold).describe("the clocks of the bars and cuts that she comes to, each over the day on which she is there"),
  order: z.array(z.string()).describe("the order to the helm in sentences, the first to act on; why there is none"),
  standsOpen: z.boolean().describe("false: the departure is shut, and the order only what it would be"),
  compass: z.string().describe("`Variation 12.3° E from the magnetic model; deviation from the card.`"),
  ways: z.array(wayTold),
  waysNote: z.array(z.string()),
  stream: z.array(z.string()).describe("what carries the boat, and what comes of more or less of it"),
  section: sectionTold.nullable().describe("null where no way arrives"),
  reAim: reAimTold.nullable(),
  refuges: refugesTold.nullable(),
  wrong: z
    .array(z.object({ name: z.string(), words: z.string() }))
    .describe("turning back, standing off, the engine stopping, fuel: a name and what to do"),
  restsOn: z.array(z.string()),
});
export type DepartureTold = z.infer<typeof departureTold>;
