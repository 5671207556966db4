import { z } from "zod";
import { bearing, position, text } from "./leaf.ts";

const lane = z
  .strictObject({
    name: text("What the lane is called in sentences.", "the north-west lane"),
    flow: bearing(
      "The general direction its traffic goes. Left out: a separation zone or a precautionary area, which has none.",
      "305",
    ).optional(),
    area: z
      .array(position("One corner, as on the chart."))
      .min(3)
      .meta({ description: "Its corners in order round it; the last is joined to the first." }),
  })
  .meta({ description: "One lane, separation zone or precautionary area." });

/** Traffic separation schemes on the way. */
export const lanesSchema = z
  .array(lane)
  .min(1)
  .meta({ description: "Traffic separation lanes, from the chart: they are crossed on a heading square to their flow." });
