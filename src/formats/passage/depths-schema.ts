import { z } from "zod";
import { length, text } from "./leaf.ts";

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
        tide: length("Height of the tide above chart datum to reckon with. Left out: none, at chart datum.", "0.4 m").optional(),
        waves: length("What to allow for the boat's fall in the waves. Left out: the significant height.", "0.3 m").optional(),
      })
      .meta({ description: "One shallow." }),
  )
  .meta({ description: "Shallows on the way out of harbour and in, for the limit `underKeel`." });
