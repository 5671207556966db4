import { z } from "zod";
import { angle, entry, length, speed } from "./leaf.ts";

const share = (description: string, ...examples: string[]) => entry(`${description} A share in per cent.`, examples);

/** How far things may turn out other than planned, and how often that is tried. */
export const chanceSchema = z
  .strictObject({
    seed: entry("A whole number; another one draws other errors.", ["1"], "number").optional(),
    samples: entry("How many crossings are tried for each departure, 10 to 10000.", ["50"], "number").optional(),
    speed: share("Of the boat's speed, one standard deviation.", "10 %").optional(),
    heading: angle("Of what is steered against what is ordered, one standard deviation.", "3 deg").optional(),
    lateStart: entry("The latest start after the time planned: evenly from none to this.", ["30 min"]).optional(),
    currentRms: speed("Of the current where it is no stream: the root mean square of the vector.", "0.8 kn", "0.4 m/s").optional(),
    streamTotal: share("Of a stream's total, one standard deviation.", "25 %").optional(),
    streamPlace: length("Of a stream's place, square to its set, one standard deviation.", "4 nm").optional(),
    wind: z
      .strictObject({
        speed: share("Of wind and gust at the issue of the forecast, one standard deviation.", "15 %").optional(),
        speedPerDay: share("How much that grows with each day.", "6 %").optional(),
        direction: angle("Of the wind's direction at the issue of the forecast, one standard deviation.", "15 deg").optional(),
        directionPerDay: angle("How much that grows with each day.", "6 deg").optional(),
      })
      .meta({ description: "The wind's error, where there is one forecast only; of several, each is taken as it stands." })
      .optional(),
  })
  .meta({ description: "How far things may turn out other than planned, for the chance of each departure." });
