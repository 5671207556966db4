import { z } from "zod";
import { bearing, entry, factor, fileName, length, position, speed, text, time } from "./leaf.ts";

const sketch = z
  .strictObject({
    name: text("What the stream is called.", "Morrel Stream").optional(),
    at: position("A place on the axis of the stream."),
    axis: bearing("The bearing along which the axis runs.", "215"),
    from: time("From when the sketch holds. Left out: from always.").optional(),
    until: time("Until when the sketch holds. Left out: for ever.").optional(),
    section: z
      .array(
        z
          .strictObject({
            across: length("Distance from the axis, + to the right of someone who looks along it.", "-15 nm"),
            rate: speed("The stream's rate there.", "3.2 kn"),
            set: bearing("Where the stream sets there. Left out: along the axis.", "215").optional(),
          })
          .meta({ description: "Rate and set at one distance from the axis." }),
      )
      .min(2)
      .meta({ description: "Rate and set across the stream, from left to right; beyond the first and last nothing is known." }),
  })
  .meta({ description: "A stream as a bulletin gives it." });

const uniform = z
  .strictObject({ set: bearing("Where the water sets.", "215"), rate: speed("Its rate.", "1.2 kn") })
  .meta({ description: "The same set and rate everywhere and always." });

const files = (what: string) =>
  z
    .array(fileName("A file, or several where `*` in the name stands for any letters.", `${what}-*.grib2`))
    .min(1)
    .meta({
      description: "Files of one source: its hours, its components, its runs. Of runs the newest that covers a passage whole is used.",
    });

const loneSource = {
  file: fileName("A current file (GRIB or NetCDF).", "current.nc").optional(),
  files: files("current").optional(),
  sketch: sketch.optional(),
  uniform: uniform.optional(),
  streams: z
    .array(text("A stream's name in `streams`; `all` alone: every one that has a radius.", "the Cut"))
    .min(1)
    .meta({ description: "Tidal streams of the list, each within its radius.", examples: [["all"]] })
    .optional(),
};
const loneKinds = [
  { required: ["file"] },
  { required: ["files"] },
  { required: ["sketch"] },
  { required: ["uniform"] },
  { required: ["streams"] },
];

export const waterSchema = z
  .strictObject({
    whereUnknown: entry(
      "What to do where no source says what the water does: `refuse` to answer, take it as `still`, or take the nearest known within a stated distance. Left out: refuse.",
      ["refuse", "still", "nearest within 5 nm"],
    ).optional(),
    sources: z
      .array(
        z
          .strictObject({
            ...loneSource,
            sum: z
              .array(z.strictObject(loneSource).meta({ description: "One part.", oneOf: loneKinds }))
              .min(2)
              .meta({
                description:
                  "Sources added together, as an ocean current without a tide and the tidal streams are; covered where all of them are.",
              })
              .optional(),
          })
          .meta({
            description:
              "One source of current: a file, several files that belong together, a sketch, a uniform stream, tidal streams, or a sum of these.",
            oneOf: [...loneKinds, { required: ["sum"] }],
          }),
      )
      .min(1)
      .meta({ description: "Where the current comes from; the first that covers a place and time answers." }),
  })
  .meta({ description: "What the water does." });

const period = z
  .strictObject({
    from: time("From when it holds."),
    until: time("Until when it holds."),
    wind: entry("Direction it comes from, speed in knots, gust: each one figure or a range.", ["NE 12-16 G20", "SE-S 8-12"]).optional(),
    sea: entry("Significant height and period: each one figure or a range.", ["2-3 ft @ 9 s", "1.2 m"]).optional(),
    visibility: entry("Visibility: one figure or a range.", ["2-5 nm", "8 km"]).optional(),
    thunderstorms: entry("Chance of thunderstorms: one figure or a range.", ["10-20 %"]).optional(),
  })
  .meta({
    description: "A stretch of time with one wind, one sea, or what else is told of it.",
    anyOf: [{ required: ["wind"] }, { required: ["sea"] }, { required: ["visibility"] }, { required: ["thunderstorms"] }],
  });

export const weatherSchema = z
  .strictObject({
    gustFactor: factor("Gust over wind speed, where no gust is given.", "1.3").optional(),
    sources: z
      .array(
        z
          .strictObject({
            file: fileName("A forecast file (GRIB or NetCDF).", "wind.grib2").optional(),
            files: files("wind").optional(),
            letter: fileName("A forecaster's letter, as text.", "letter.txt").optional(),
            zone: entry("With `letter`: the zone of its times, where it names none.", ["UTC-10", "Pacific/Tahiti"]).optional(),
            issued: time("With `letter`: when it was issued, where it doesn't say.").optional(),
            strikeOut: z
              .array(entry("A line's number, from 1.", ["7"], "number"))
              .meta({ description: "With `letter`: lines that were not understood and may be left out." })
              .optional(),
            periods: z.array(period).min(1).meta({ description: "Wind and sea typed in, period by period." }).optional(),
          })
          .meta({
            description: "One source of weather: a file, several files that belong together, a letter or periods.",
            oneOf: [{ required: ["file"] }, { required: ["files"] }, { required: ["letter"] }, { required: ["periods"] }],
            dependentRequired: { zone: ["letter"], issued: ["letter"], strikeOut: ["letter"] },
          }),
      )
      .min(1)
      .meta({ description: "Where wind and sea come from; the first that covers a place and time answers." }),
    swell: entry(
      "The swell where no source gives a sea and the wind's own is reckoned: height and period, or `none` where none comes in. Left out: not known, so that limits on the sea are not judged whole there.",
      ["1.2 m @ 11 s", "none"],
    ).optional(),
  })
  .meta({ description: "What wind and sea do." });
