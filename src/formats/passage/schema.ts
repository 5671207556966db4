import { z } from "zod";
import { anchorageSchema } from "./anchorage-schema.ts";
import { anchoragesSchema } from "./anchorages-schema.ts";
import { boatSchema } from "./boat-schema.ts";
import { chanceSchema } from "./chance-schema.ts";
import { crewSchema } from "./crew-schema.ts";
import { depthsSchema } from "./depths-schema.ts";
import { gatesSchema } from "./gates-schema.ts";
import { landSchema } from "./land-schema.ts";
import { lanesSchema } from "./lanes-schema.ts";
import { bearing, entry, position, speed, text, time } from "./leaf.ts";
import { limitsSchema } from "./limits-schema.ts";
import { refugesSchema } from "./refuges-schema.ts";
import { waterSchema, weatherSchema } from "./sources-schema.ts";
import { stagingSchema } from "./staging-schema.ts";
import { streamsSchema } from "./streams-schema.ts";
import { tidesSchema } from "./tides-schema.ts";

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
        approach: bearing("The course of the way in where it is read by eye. Left out: that of `pilotageIn`.", "215").optional(),
      })
      .meta({ description: "From berth to berth." }),
    land: landSchema.optional(),
    tides: tidesSchema.optional(),
    streams: streamsSchema.optional(),
    water: waterSchema,
    weather: weatherSchema,
    refuges: refugesSchema.optional(),
    lanes: lanesSchema.optional(),
    staging: stagingSchema.optional(),
    anchorage: anchorageSchema.optional(),
    anchorages: anchoragesSchema.optional(),
    crew: crewSchema.optional(),
    depths: depthsSchema.optional(),
    gates: gatesSchema.optional(),
    limits: limitsSchema,
    chance: chanceSchema.optional(),
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
