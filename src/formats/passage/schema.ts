import { z } from "zod";
import { anchorageSchema } from "./anchorage-schema.ts";
import { boatSchema } from "./boat-schema.ts";
import { landSchema } from "./land-schema.ts";
import { lanesSchema } from "./lanes-schema.ts";
import { entry, position, speed, text, time } from "./leaf.ts";
import { refugesSchema } from "./refuges-schema.ts";
import { waterSchema, weatherSchema } from "./sources-schema.ts";
import { stagingSchema } from "./staging-schema.ts";

/** The version this code reads and writes. Older ones are brought up to it (`migrate.ts`), newer ones refused. */
export const PASSAGE_VERSION = 1;

const zone = (description: string) =>
  entry(`${description} A name such as \`Pacific/Tahiti\`, or \`UTC-10\`, \`UTC+5:30\`.`, ["UTC-10", "Pacific/Tahiti"]);

const place = (description: string) =>
  z
    .strictObject({
      name: text("What the place is called in sentences.", "the fairway buoy off Port Ansa"),
      position: position("Where it is."),
      refuge: entry("`no` where it does not count as a port of refuge.", ["yes", "no"], "boolean").optional(),
    })
    .meta({ description });

const pilotage = (description: string, order: string) =>
  z
    .strictObject({
      speed: speed("Speed over the ground along the leg.", "5 kn"),
      points: z.array(position("One point of the track.")).min(1).meta({ description: order }),
    })
    .meta({ description });

const limit = (description: string, happy: string, never: string) =>
  z
    .strictObject({
      happy: entry(`Untroubled up to here. ${description}`, [happy], "nought"),
      never: entry(`Closed from here on. ${description}`, [never], "nought"),
      tolerated: entry("How long `never` may be passed before it counts. Left out: not at all.", ["20 min"]).optional(),
    })
    .meta({ description });

/** The passage file's keys, every scalar as text. The published JSON Schema is made from this. */
export const passageSchema = z
  .strictObject({
    athwart: z.literal(`passage/${PASSAGE_VERSION}`).meta({ description: "What this file is, and the version of its keys." }),
    name: text("What the passage is called.", "Pelu Road to Port Ansa"),
    invented: entry("`yes` where the waters are invented: every answer then says so.", ["yes", "no"], "boolean").optional(),
    zones: z
      .strictObject({
        ship: zone("Ship's time: what a time without a zone means, and what answers are told in.").optional(),
        arrival: zone("The time kept at the arrival. Left out: ship's time.").optional(),
      })
      .meta({ description: "Time zones." })
      .optional(),
    boat: boatSchema,
    route: z
      .strictObject({
        from: place("Where the open water begins."),
        to: place("Where the open water ends."),
        pilotageOut: pilotage(
          "From the berth to `from`, on a fixed track.",
          "The track, berth first; the leg ends at `from` by itself.",
        ).optional(),
        pilotageIn: pilotage(
          "From `to` to the berth, on a fixed track.",
          "The track, berth last; the leg begins at `to` by itself.",
        ).optional(),
      })
      .meta({ description: "From berth to berth." }),
    land: landSchema.optional(),
    water: waterSchema,
    weather: weatherSchema,
    refuges: refugesSchema.optional(),
    lanes: lanesSchema.optional(),
    staging: stagingSchema.optional(),
    anchorage: anchorageSchema.optional(),
    limits: z
      .strictObject({
        wind: limit("Wind speed, along the whole passage.", "14 kn", "22 kn").optional(),
        gust: limit("Gust, along the whole passage.", "18 kn", "29 kn").optional(),
        windAgainstCurrent: limit("Knots of wind against the set times knots of current, in open water.", "0 kn2", "40 kn2").optional(),
        seaHeight: limit("Significant height of the sea, along the whole passage.", "1.2 m", "2.1 m").optional(),
        seaPeriod: limit("Period of the sea, along the whole passage; a least: `never` is the shorter.", "7 s", "4 s").optional(),
        lightAtArrival: limit(
          "Height of the sun from the arrival point to the berth; a least: `never` is the lower.",
          "5 deg",
          "-6 deg",
        ).optional(),
      })
      .meta({ description: "What you and the boat accept, two figures each. What is left out is not judged.", minProperties: 1 }),
    leave: z
      .strictObject({
        from: time("The first departure to try. Left out: as early as the forecast allows.").optional(),
        until: time("The last departure to try. Left out: as late as the forecast allows.").optional(),
      })
      .meta({ description: "Which departures to try." })
      .optional(),
  })
  .meta({ title: "Athwart passage file", description: "One crossing as the skipper states it: YAML or JSON." });

/** A passage file's content as typed, at the current version. */
export type PassageData = z.infer<typeof passageSchema>;
export type LimitName = keyof PassageData["limits"];
