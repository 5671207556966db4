import { z } from "zod";
import { entry, position, speed, text } from "./leaf.ts";

const stagingPoint = z
  .strictObject({
    name: text("What the place is called in sentences.", "Shoal Bay"),
    position: position("Where open water begins from there."),
    takes: entry("How long the way there takes from the berth.", ["6 h 30 min"]).optional(),
    speed: speed("With `points`: speed over the ground along the way there.", "5 kn").optional(),
    points: z
      .array(position("One point of the way there."))
      .min(1)
      .meta({ description: "The way there, berth first; it ends at `position` by itself." })
      .optional(),
  })
  .meta({
    description: "One place, and how it is reached from the berth: `takes`, or `speed` and `points`.",
    oneOf: [{ required: ["takes"] }, { required: ["points"] }],
    dependentRequired: { speed: ["points"], points: ["speed"] },
  });

/** Other places to leave open water from. */
export const stagingSchema = z
  .array(stagingPoint)
  .min(1)
  .meta({ description: "Other places to leave open water from, which may make the whole passage shorter." });
