import { z } from "zod";
import { entry, speed } from "./leaf.ts";

const figures = (description: string, happy: string, never: string, bare: "nought" | "number" = "nought") => ({
  happy: entry(`Untroubled up to here. ${description}`, [happy], bare),
  never: entry(`Closed from here on. ${description}`, [never], bare),
});

/** Judged from place to place, so that it may be passed for a while. */
const along = (description: string, happy: string, never: string) =>
  z
    .strictObject({
      ...figures(description, happy, never),
      tolerated: entry("How long `never` may be passed before it counts. Left out: not at all.", ["20 min"]).optional(),
    })
    .meta({ description });

/** One figure of the whole passage. */
const once = (description: string, happy: string, never: string) =>
  z.strictObject(figures(description, happy, never)).meta({ description });

export const limitsSchema = z
  .strictObject({
    wind: along("Wind speed, along the whole passage.", "14 kn", "22 kn").optional(),
    gust: along("Gust, along the whole passage.", "18 kn", "29 kn").optional(),
    windAgainstCurrent: along("Knots of wind against the set times knots of current, in open water.", "0 kn2", "40 kn2").optional(),
    sinceAgainst: once(
      "How long before mid-stream the wind last blew 10 kn or more against the stream; a least: `never` is the shorter.",
      "24 h",
      "6 h",
    ).optional(),
    calmBefore: z
      .strictObject({
        ...figures("How long it has been calm when the berth is left; a least: `never` is the shorter.", "48 h", "12 h"),
        wind: speed("Wind up to this counts as calm.", "10 kn"),
      })
      .meta({ description: "Calm before leaving, where open water begins and in the middle of the line across." })
      .optional(),
    seaHeight: along("Significant height of the sea, along the whole passage.", "1.2 m", "2.1 m").optional(),
    seaPeriod: along("Period of the sea, along the whole passage; a least: `never` is the shorter.", "7 s", "4 s").optional(),
    seaSteepness: along(
      "Significant height over length of the sea run against the stream, in open water; seas break from 1/13.",
      "1/25",
      "1/13",
    ).optional(),
    seaOnCurrent: along("Significant height of the sea run against the stream, in open water.", "1.2 m", "2.1 m").optional(),
    seaPeriodToHeight: along(
      "Period over significant height of the sea run against the stream, in open water; a least: `never` is the shorter.",
      "1.5 s/ft",
      "1 s/ft",
    ).optional(),
    visibility: along("Visibility, along the whole passage; a least: `never` is the shorter.", "5 nm", "1 nm").optional(),
    thunderstorms: along("Chance of thunderstorms, along the whole passage.", "10 %", "40 %").optional(),
    lightAtArrival: along(
      "Height of the sun from the arrival point to the berth; a least: `never` is the lower.",
      "5 deg",
      "-6 deg",
    ).optional(),
    eyeball: z
      .strictObject({
        sunAltitude: along("Height of the sun from the arrival point to the berth; a least: `never` is the lower.", "30 deg", "15 deg"),
        sunOffBow: along(
          "Between the bow and the sun, from the arrival point to the berth; a least: `never` is the nearer.",
          "60 deg",
          "30 deg",
        ).optional(),
      })
      .meta({ description: "An entrance that is read by eye: the sun high enough, and not ahead." })
      .optional(),
    underKeel: once("Under-keel clearance over the shallows of `depths`; a least: `never` is the smaller.", "1.5 m", "0.6 m").optional(),
    fuelLeft: once(
      "Usable fuel left at the berth, in litres or as a share of the usable; a least: `never` is the smaller.",
      "66 %",
      "33 %",
    ).optional(),
    hoursAwake: once("How long each watchkeeper has been awake on arrival.", "16 h", "24 h").optional(),
    bedtime: z
      .strictObject(figures("When the berth is reached, by the clock there.", "2000", "2330", "number"))
      .meta({ description: "When the berth is reached, by the clock there." })
      .optional(),
  })
  .meta({ description: "What you and the boat accept, two figures each. What is left out is not judged.", minProperties: 1 });
