import { z } from "zod";
import { bearing, length, position, speed, text } from "./leaf.ts";

const sector = z
  .strictObject({
    from: bearing("One side of it, true.", "220"),
    until: bearing("The other, clockwise from there.", "290"),
  })
  .meta({ description: "Directions that wind and sea come in from." });

/** Where the boat lies after arrival. */
export const anchorageSchema = z
  .strictObject({
    name: text("What the place is called in sentences.", "Sarume Pool"),
    position: position("Where the boat lies."),
    openTo: z.array(sector).min(1).meta({ description: "The directions it lies open to. Left out: sheltered all round." }).optional(),
    never: z
      .strictObject({
        wind: speed("Not in more wind than this, wherever from.", "30 kn").optional(),
        gust: speed("Not in gusts above this, wherever from.", "38 kn").optional(),
        sea: length("Not in a higher sea than this, by the forecast at the place, significant height.", "1 m", "3 ft").optional(),
      })
      .meta({ description: "What makes it untenable from any side.", minProperties: 1 })
      .optional(),
    neverFromOpen: z
      .strictObject({
        wind: speed("Not in more wind than this out of `openTo`.", "12 kn").optional(),
        gust: speed("Not in gusts above this out of `openTo`.", "18 kn").optional(),
      })
      .meta({ description: "What makes it untenable while the wind comes out of `openTo`.", minProperties: 1 })
      .optional(),
  })
  .meta({ description: "Where you lie after arrival, judged for three days.", dependentRequired: { neverFromOpen: ["openTo"] } });
