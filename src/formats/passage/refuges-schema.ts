import { z } from "zod";
import { entry, length, position, speed, text } from "./leaf.ts";

const never = z
  .strictObject({
    wind: speed("Never in more wind than this.", "25 kn").optional(),
    gust: speed("Never in gusts above this.", "32 kn").optional(),
    sea: length("Never in a higher sea than this, significant height.", "1.5 m", "4 ft").optional(),
  })
  .meta({ description: "What shuts the entrance. What is left out is not judged there.", minProperties: 1 });

const refuge = z
  .strictObject({
    name: text("What the place is called in sentences.", "Lantern Cove"),
    position: position("The entrance, where open water ends."),
    enter: z.enum(["any", "daylight"]).meta({
      description: "`any`: by night too. `daylight`: only with the sun no lower than 6 degrees below the horizon, until the berth.",
    }),
    zone: entry("The time kept there. Left out: ship's time.", ["UTC-7", "Pacific/Tahiti"]).optional(),
    never: never.optional(),
    depth: length("Charted at the shallowest of the way in; below nought where it dries. Left out: not judged.", "3.2 m").optional(),
    underKeel: length("The least you want under the keel there, beside `depth`. Left out: 1 m.", "0.5 m").optional(),
    pilotage: entry("How long it takes from the entrance to the berth. Left out: nothing is reckoned.", ["25 min"]).optional(),
    notes: text("What you want to read when it comes to it.", "Leading lights 041; the second mark is unlit.").optional(),
  })
  .meta({ description: "One place to run to.", dependentRequired: { underKeel: ["depth"] } });

/** Places to run to when it goes wrong. */
export const refugesSchema = z
  .array(refuge)
  .min(1)
  .meta({ description: "Ports of refuge, beside the two ends of the route, which count as such by your own limits." });
