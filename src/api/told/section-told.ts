import { z } from "zod";

/** `[miles across, value]`: along a passage in order of time; miles across may turn back on themselves. */
export const alongPoints = z.array(z.tuple([z.number(), z.number()]));
/** `[miles across, miles off the line]`, up-stream positive. */
export const placesAcross = z.array(z.tuple([z.number(), z.number()]));

/** Stretches, miles across in order of time, with the steepest in each: significant height over length. */
const steepStretches = z.array(
  z.object({
    fromNm: z.number(),
    untilNm: z.number(),
    greatest: z.number(),
    words: z.string().describe("the greatest: `1/16`"),
  }),
);

/** What the stream makes of the forecast's sea: significant height, and significant steepness (height over length). */
const seaOnStreamTold = z.object({
  height: z
    .array(z.tuple([z.number(), z.number(), z.number()]).nullable())
    .describe("[miles across, lowest metres, highest metres], an entry for each of the forecast's heights; null where it is not known"),
  raised: z
    .tuple([z.number(), z.number(), z.number()])
    .nullable()
    .describe("the highest of them that stand 0.1 m or more over the forecast's sea; null where none does"),
  neverMetres: z.number().nullable().describe("the limit on that height; null where none is set"),
  steepness: z
    .array(z.tuple([z.number(), z.number(), z.number()]).nullable())
    .describe("[miles across, least, greatest] at the same places; 1/7, at which every wave breaks, is the most"),
  neverSteepness: z.number().nullable().describe("the limit on that steepness; null where none is set"),
  neverSteepnessWords: z.string().nullable().describe("the same as `1/13`"),
  steep: steepStretches.describe("where it is 1/25 or more, breaking seas included"),
  breaking: steepStretches.describe("where it is 1/13 or more"),
  pastNever: steepStretches.describe("where it is past the limit on it; none where no limit is set"),
});

/**
 * A crossing drawn across its stream: plan view and strips on one axis of miles across from where open water begins (0) to where it ends
 * (`lengthNm`). Up the drawing is up-stream, so that a
 * crossing whose stream sets to port runs from right to left: it is a map that was turned, never mirrored. Off the line is in miles,
 * up-stream positive.
 */
export const sectionTold = z.object({
  lengthNm: z.number(),
  southern: z.boolean().describe("south of the equator, where the feathers of a wind barb stand on the other side"),
  lineDegTrue: z.number().describe("the line's true bearing"),
  upDegTrue: z.number().describe("the true bearing that points up the drawing"),
  from: z.string(),
  to: z.string(),
  hours: z
    .array(z.object({ acrossNm: z.number(), offNm: z.number(), clock: z.string() }))
    .describe("whole hours along the order; the first and last node too"),
  paths: z
    .array(
      z.object({
        letter: z.string(),
        role: z.enum(["order", "yardstick", "other"]),
        key: z.string(),
        name: z.string(),
        points: placesAcross,
      }),
    )
    .describe("each way's path over the ground"),
  land: z.array(z.object({ name: z.string().nullable(), kind: z.enum(["land", "keptOut"]), ring: placesAcross })),
  lanes: z.array(
    z.object({ name: z.string(), ring: placesAcross, flowTowardDegTrue: z.number().nullable().describe("null in a zone without a flow") }),
  ),
  places: z.array(z.object({ name: z.string(), kind: z.enum(["from", "to", "refuge"]), acrossNm: z.number(), offNm: z.number() })),
  streamMarks: z
    .array(z.object({ acrossNm: z.number(), offNm: z.number(), alongKn: z.number(), upKn: z.number() }))
    .describe("the current there when the order brings the boat so far across: its parts along the line and up the drawing"),
  rate: z.object({
    points: z.array(z.tuple([z.number(), z.number(), z.number()])).describe("[miles across, knots, toward degrees true] along the order"),
  }),
  heading: z.object({
    by: z.enum(["compass", "magnetic", "true"]),
    steered: alongPoints.describe("[miles across, heading by that north]"),
    overGround: alongPoints.describe("[miles across, course over ground, degrees by the same north]"),
    overGroundDegTrue: z.array(z.number()).optional().describe("the same courses, true: what a receiver of satellites shows"),
  }),
  off: z
    .array(z.object({ streamFactor: z.number(), points: placesAcross }))
    .describe("off the line, by the stream foretold and by less and more"),
  wind: z.array(
    z.object({
      acrossNm: z.number(),
      clock: z.string(),
      fromDegTrue: z.number().nullable(),
      kn: z.number(),
      gustKn: z.number().nullable(),
    }),
  ),
  sea: z
    .object({
      height: z.array(z.tuple([z.number(), z.number(), z.number()])).describe("[miles across, lowest metres, highest metres]"),
      neverMetres: z.number().nullable(),
      periodSeconds: z.array(z.tuple([z.number(), z.number()])).describe("[miles across, shortest period]"),
      lacksSwell: z.boolean().describe("whether it is, somewhere, the wind's own sea alone, the swell not known"),
      onStream: seaOnStreamTold
        .nullable()
        .describe("what the stream makes of that sea, as its limits are judged; null where no source gives its period or none the stream"),
    })
    .nullable()
    .describe("null where no source gives a sea"),
  light: z.array(z.object({ fromNm: z.number(), untilNm: z.number(), light: z.enum(["night", "twilight", "day"]) })),
  lightWords: z.array(z.object({ acrossNm: z.number(), words: z.string() })).describe("`sun up 06:10`"),
  depth: z.object({ words: z.string() }).nullable().describe("what is known of the depths on the way; null where nothing is"),
  axis: z.object({ acrossNm: z.number(), clock: z.string(), rateKn: z.number() }),
  clear: z.object({ acrossNm: z.number(), clock: z.string() }).nullable(),
  inWords: z.string().describe("the whole drawing in words, for who can't see it"),
});
export type SectionTold = z.infer<typeof sectionTold>;
