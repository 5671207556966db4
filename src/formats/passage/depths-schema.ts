import { z } from "zod";
import { entry, length, text } from "./leaf.ts";

export const depthsSchema = z
  .array(
    z
      .strictObject({
        name: text("What it is called.", "the bar of Port Ansa"),
        on: z.enum(["out", "in"]).meta({ description: "On the way out of harbour, or in." }),
        depth: length("Charted depth; below nought where it dries.", "2.9 m"),
        datum: z
          .enum(["chart", "unknown"])
          .meta({ description: "What the depth is measured from: chart datum, or you don't know, and then it is not judged." }),
        tide: entry(
          "The tide of `tides` that is computed for when the boat is there, by its name; or a height of the tide above chart datum to reckon with, a length with its unit. Left out: none, at chart datum.",
          ["Morrel Bar", "0.4 m"],
          "nought",
        ).optional(),
        at: entry(
          "With a computed `tide`: how far it lies along `pilotageOut` from the berth, or along `pilotageIn` from open water: a distance, or `berth`. Left out: anywhere on it, the lowest water there counts.",
          ["1.2 nm", "berth"],
          "nought",
        ).optional(),
        waves: length("What to allow for the boat's fall in the waves. Left out: the significant height.", "0.3 m").optional(),
      })
      .meta({ description: "One shallow." }),
  )
  .meta({ description: "Shallows on the way out of harbour and in, for the limit `underKeel`." });
