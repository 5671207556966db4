import { z } from "zod";
import { angle, entry, factor, length, speed, text } from "./leaf.ts";

const sailRow = z
  .strictObject({
    trueWindAngle: angle("Between the bow and where the wind over the water comes from, 0 to 180, either side.", "52 deg"),
    trueWindSpeed: speed("Wind over the water.", "10 kn"),
    speed: speed("Speed through the water under sail.", "5.3 kn"),
  })
  .meta({ description: "One measured or certified point of speed under sail." });

const power = z
  .strictObject({
    speed: entry(
      "Speed through the water at the cruising setting, with its unit; or the word `estimate`: reckon it from the waterline's length, and say so in every answer.",
      ["5.6 kn", "estimate"],
    ),
    burn: entry("Fuel burnt in an hour.", ["2.6 L/h", "0.7 US gal/h"]).optional(),
    burnMeasuredAt: speed(
      "The speed at which the burn was measured, where it is another than `speed`; scaled by the cube law.",
      "5.0 kn",
    ).optional(),
    usableFuel: entry("Fuel that can really be drawn, the reserve you keep left out.", ["180 L", "48 US gal"]).optional(),
    reserve: entry(
      "Of the usable fuel, what is not to be burnt: `thirds` (one to go, one to come back, one kept) or a share. Left out: thirds.",
      ["thirds", "20 %"],
    ).optional(),
    headwindLoss: entry("Share of the speed lost into 20 kn of wind dead ahead. Left out: none.", ["4 %"]).optional(),
  })
  .meta({ description: "The engine." });

const sail = z
  .strictObject({
    rows: z.array(sailRow).min(1).meta({ description: "Speed under sail, one row a point. Give this or `table`." }).optional(),
    table: entry(
      "A plain table of speeds under sail in a file: wind speeds across, true wind angles down, knots. Relative to the folder of the passage file. Give this or `rows`.",
      ["tansy-speeds.txt"],
    ).optional(),
    leeway: z
      .strictObject({
        coefficient: factor("K in leeway = K sin(heel) / speed², degrees and knots: the boat's own, measured.", "464"),
        cap: angle("The most leeway that is ever reckoned.", "12 deg"),
      })
      .meta({ description: "Leeway. Left out: none is reckoned, and that is said." })
      .optional(),
  })
  .meta({ description: "The boat under sail.", oneOf: [{ required: ["rows"] }, { required: ["table"] }] });

const compass = z
  .strictObject({
    variation: entry("Magnetic variation, only to overrule the magnetic model or where it does not serve.", ["12 E", "3.5 W"]).optional(),
    deviation: z
      .array(
        z
          .strictObject({
            heading: entry("Magnetic heading, 0 to 360 degrees.", ["90"], "number"),
            deviation: entry("Deviation on that heading, E or W.", ["1 W", "0"], "nought"),
          })
          .meta({ description: "One line of the deviation card." }),
      )
      .meta({ description: "The deviation card, by magnetic heading. Left out: none known; compass headings are magnetic." })
      .optional(),
  })
  .meta({ description: "The steering compass." });

const groundTackle = z
  .strictObject({
    chain: length("How much chain there is, at the anchor. Left out: none.", "40 m").optional(),
    chainDiameter: length("The diameter of its wire.", "10 mm").optional(),
    rope: length("How much rope there is above it. Left out: none.", "30 m").optional(),
  })
  .meta({
    description: "What she anchors with: `chain`, `rope` or both.",
    anyOf: [{ required: ["chain"] }, { required: ["rope"] }],
    dependentRequired: { chain: ["chainDiameter"], chainDiameter: ["chain"] },
  });

export const boatSchema = z
  .strictObject({
    name: text("The boat's name.", "Tansy"),
    lengthOverall: length("Length overall.", "11.6 m", `38'`).optional(),
    waterlineLength: length("Length of the waterline.", "32 ft").optional(),
    draught: length("How deep the boat reaches, loaded.", "1.7 m", `5'7"`).optional(),
    airDraught: length("How high the boat reaches above the water, aerials included.", "16.5 m").optional(),
    beam: length("How broad she is, for the wind's load at anchor.", "3.8 m").optional(),
    bowHeight: length("The bow roller over the water, for scope and swinging circle.", "1.3 m").optional(),
    groundTackle: groundTackle.optional(),
    headSeaLoss: entry(
      "Share of the speed lost into a sea of 1 m at 5 s from dead ahead, beyond what the wind takes. Left out: none is reckoned.",
      ["20 %"],
    ).optional(),
    goes: z.enum(["power", "sail", "motor-sail"]).meta({ description: "How the crossing is made." }),
    power: power.optional(),
    sail: sail.optional(),
    engineRule: z
      .strictObject({
        onBelow: speed("The engine goes on when the speed under sail falls below this.", "3.5 kn"),
        offAbove: speed("The engine goes off when the speed under sail rises above this.", "4.5 kn"),
      })
      .meta({ description: "Under sail: when the engine goes on and off. Left out: never." })
      .optional(),
    motorSail: z
      .strictObject({
        exponent: factor("How the two speeds combine: (power^n + sail^n)^(1/n), n from 2 to 3.", "2").optional(),
        headsailOnlyBeyond: angle("The headsail draws only beyond this apparent wind angle.", "35 deg").optional(),
        hullSpeed: speed("The speed that power and sail together never pass.", "7.6 kn").optional(),
      })
      .meta({ description: "How power and sail go together." })
      .optional(),
    compass: compass.optional(),
  })
  .meta({ description: "The boat." });
