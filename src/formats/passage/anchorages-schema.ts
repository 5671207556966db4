import { z } from "zod";
import { bearing, entry, factor, length, position, speed, text } from "./leaf.ts";

const sector = z
  .strictObject({
    from: bearing("One side of it, true.", "220"),
    until: bearing("The other, clockwise from there.", "290"),
  })
  .meta({ description: "Directions that wind and sea come in from." });

const heights = z
  .strictObject({
    lowest: length("The lowest water of the stay, above chart datum.", "0.3 m"),
    highest: length("The highest.", "1.9 m"),
  })
  .meta({ description: "Heights of the tide that you state yourself." });

const never = z
  .strictObject({
    wind: speed("Not in more wind than this.", "28 kn").optional(),
    gust: speed("Not in gusts above this.", "36 kn").optional(),
    sea: length("Not in a higher sea than this, as it is reckoned there, significant height.", "0.6 m", "2 ft").optional(),
  })
  .meta({ description: "What makes it untenable.", minProperties: 1 });

const anchorage = z
  .strictObject({
    name: text("What the place is called in sentences.", "Pelu Road"),
    position: position("Where the boat lies."),
    night: z.enum(["before", "after", "both"]).meta({ description: "The night `before` the crossing, the night `after` it, or `both`." }),
    depth: length("Charted, at chart datum; below nought where it dries. Left out: not judged.", "3.6 m").optional(),
    tide: text("The tide there: a name in `tides`.", "Morrel Bar").optional(),
    heights: heights.optional(),
    underKeel: length("The least you want under the keel there. Left out: 1 m.", "0.5 m").optional(),
    waves: length("What to allow for her fall in the waves. Left out: the sea's height reckoned there.", "0.2 m").optional(),
    bottom: text("What the bottom is, in your words. Told, and not reckoned with.", "mud, some weed").optional(),
    rodeOut: length("How much rode you let out there. Left out: by `scope`.", "35 m").optional(),
    scope: factor("Rode for each metre from the bottom to the bow at high water. Left out: 5 of chain, 7 with rope.", "6").optional(),
    openTo: z.array(sector).min(1).meta({ description: "The directions it lies open to the sea. Left out: by the coastline." }).optional(),
    fetch: length(
      "How far the shore, a reef or a breakwater lies off in every other direction. Left out: by the coastline.",
      "0.4 nm",
    ).optional(),
    room: length("Free of everything, from the anchor all round. Left out: not judged.", "60 m").optional(),
    toInlet: entry("The way to where open water begins, or from where it ends: its time, or its length.", ["40 min", "3 nm"]).optional(),
    never: never.optional(),
    notes: text("What you want to read when it comes to it.", "Dinghy landing at the steps; a foul patch to the north.").optional(),
  })
  .meta({ description: "One place to anchor for a night.", dependentRequired: { tide: ["depth"], heights: ["depth"] } });

/** Places to anchor for the nights before and after the crossing. */
export const anchoragesSchema = z
  .array(anchorage)
  .min(1)
  .meta({ description: "Places to anchor for the nights before and after the crossing, to be compared." });
