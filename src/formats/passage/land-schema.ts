import { z } from "zod";
import { fileName } from "./leaf.ts";

export const landSchema = z
  .strictObject({
    coast: z
      .enum(["atlas", "none"])
      .meta({
        description:
          "The world's coastline: `atlas`, the one that ships, or `none`. Left out: `atlas`, but `none` where the waters are invented.",
        examples: ["atlas", "none"],
      })
      .optional(),
    files: z
      .array(fileName("A GeoJSON file of areas: land, or what you keep out of.", "land.geojson"))
      .min(1)
      .meta({ description: "Your own land and hazards, beside the coastline." })
      .optional(),
  })
  .meta({ description: "What no way may lead through." });
