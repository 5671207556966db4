import { z } from "zod";
import { entry, length, position, text } from "./leaf.ts";

const difference = {
  later: entry("So long after the reference's. Left out, with `earlier`: at the same time.", ["25 min"]).optional(),
  earlier: entry("So long before it.", ["10 min"]).optional(),
  higher: length("So much higher than the reference's, each above its own datum.", "0.3 m").optional(),
  lower: length("So much lower.", "0.2 m").optional(),
  ratio: entry("Or: the reference's height times this.", ["0.95"], "number").optional(),
};

const differences = (turn: string) =>
  z
    .strictObject({
      ...difference,
      atHeights: z
        .array(
          z
            .strictObject({ reference: length("The reference's height at which it holds.", "5.4 m"), ...difference })
            .meta({ description: "The difference at one height of the reference." }),
        )
        .min(2)
        .max(2)
        .meta({ description: "Instead of one difference: two, as at springs and neaps; between and beyond them straight lines are run." })
        .optional(),
    })
    .meta({ description: `What its ${turn} water differs by. One of \`higher\`, \`lower\`, \`ratio\`, \`atHeights\`.` });

const tide = z
  .strictObject({
    name: text("What it is called where it is referred to.", "Morrel Bar"),
    station: entry("A tide station that ships with the program, by its id or name (`athwart tide --near`).", ["noaa/9413450"]).optional(),
    position: position("Where it is. With `constants` and `secondary`.").optional(),
    datum: text("The datum of its heights, with `constants` and `secondary`: `LAT`, `MLLW` and the like, or in words.", "LAT").optional(),
    meanLevel: length("With `constants`: mean sea level above the datum.", "1.9 m").optional(),
    constants: z
      .array(
        z
          .strictObject({
            name: text("The constituent.", "M2"),
            amplitude: length("Its amplitude.", "1.2 m"),
            phase: entry("Its phase behind Greenwich (G, in UTC), degrees.", ["123"], "number"),
          })
          .meta({ description: "One constituent." }),
      )
      .min(1)
      .meta({ description: "Its harmonic constants." })
      .optional(),
    secondary: z
      .strictObject({
        of: text("Its reference: the name of another tide of the list, or a station that ships.", "Port Ansa"),
        highWater: differences("high"),
        lowWater: differences("low"),
      })
      .meta({ description: "Its differences from a reference port." })
      .optional(),
  })
  .meta({
    description: "One tide: a station that ships, constants of its own, or differences from a reference.",
    oneOf: [{ required: ["station"] }, { required: ["constants"] }, { required: ["secondary"] }],
    dependentRequired: { constants: ["position", "datum", "meanLevel"], secondary: ["position", "datum"] },
  });

/** Tides by name, that gates and streams refer to. */
export const tidesSchema = z
  .array(tide)
  .min(1)
  .meta({ description: "Tides by name: heights for gates and anchorages, high waters for streams." });
