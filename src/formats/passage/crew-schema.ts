import { z } from "zod";
import { entry } from "./leaf.ts";

export const crewSchema = z
  .strictObject({
    watchkeepers: entry("How many take their turn at the helm in open water.", ["2"], "number"),
    upAt: entry("When they get up, by ship's clock.", ["0700"], "number").optional(),
    inBedAt: entry(
      "With `upAt`: when they go to bed before a night's departure. Left out: they stay up for it.",
      ["2200"],
      "number",
    ).optional(),
    awakeAtDeparture: entry("Instead of `upAt`: how long they have been up, whenever they leave.", ["4 h"]).optional(),
    sleepsOffWatch: entry("Share of the time off watch that is slept. Left out: 50 %.", ["50 %"]).optional(),
  })
  .meta({
    description: "The crew, as far as being awake goes.",
    oneOf: [{ required: ["upAt"] }, { required: ["awakeAtDeparture"] }],
    dependentRequired: { inBedAt: ["upAt"] },
  });
