import { z } from "zod";
import { bearing, entry, length, position, speed, text } from "./leaf.ts";

const difference = (turn: string) =>
  z
    .strictObject({
      later: entry("So long after the reference's. Left out, with `earlier`: at the same time.", ["27 min"]).optional(),
      earlier: entry("So long before it.", ["10 min"]).optional(),
    })
    .meta({ description: `When its ${turn} is. Left out: at the same time.` })
    .optional();

const ratio = (sense: string) => entry(`The reference's greatest ${sense} times this.`, ["0.4"], "number");

const constant = z
  .strictObject({
    name: text("The constituent.", "M2"),
    rate: speed("Its amplitude.", "1.8 kn"),
    phase: entry("Its phase behind Greenwich (G, in UTC), degrees.", ["210"], "number"),
    acrossRate: speed("Of a stream that turns round: its amplitude square to the axis.", "0.4 kn").optional(),
    acrossPhase: entry("And the phase of that.", ["300"], "number").optional(),
  })
  .meta({ description: "One constituent.", dependentRequired: { acrossRate: ["acrossPhase"], acrossPhase: ["acrossRate"] } });

const hour = z
  .strictObject({
    hour: entry("Whole hours after high water; before it below nought.", ["-3", "0", "4"], "number"),
    set: bearing("Where it sets.", "215"),
    springs: speed("Its rate at springs.", "2.1 kn"),
    neaps: speed("Its rate at neaps.", "1.1 kn"),
  })
  .meta({ description: "One hour." });

const stream = z
  .strictObject({
    name: text("What it is called.", "the Cut"),
    position: position("Where it is measured."),
    within: length(
      "How far around it is taken to hold, as a source of water. Left out: it is none; it serves gates, and as a reference.",
      "2 nm",
    ).optional(),
    flood: bearing("Where the flood sets.", "045"),
    ebb: bearing("Where the ebb sets. Left out: the other way.", "220").optional(),
    mean: speed("With `constants`: the mean flow along the axis, + with the flood. Left out: none.", "-0.2 kn").optional(),
    acrossMean: speed("Of a stream that turns round: the mean flow to the right of the axis. Left out: none.", "0.1 kn").optional(),
    axis: bearing(
      "Of a stream that turns round: the axis that `rate` is along; `acrossRate` is square to it, to the right (with 0: north, and east). Left out: the flood.",
      "0",
    ).optional(),
    constants: z.array(constant).min(1).meta({ description: "Its harmonic constants, along the flood." }).optional(),
    subordinate: z
      .strictObject({
        of: text("Its reference: the name of another stream of the list.", "the Race"),
        slackBeforeFlood: difference("slack before flood"),
        greatestFlood: difference("greatest flood"),
        slackBeforeEbb: difference("slack before ebb"),
        greatestEbb: difference("greatest ebb"),
        floodRatio: ratio("flood"),
        ebbRatio: ratio("ebb"),
      })
      .meta({ description: "Its differences from a reference station." })
      .optional(),
    byHours: z
      .strictObject({
        of: text("The tide whose high waters the hours are counted from: its name in `tides`.", "Port Ansa"),
        springRange: length("The mean range there at springs. Left out: from the tide's constants, 2(M2 + S2).", "4.1 m").optional(),
        neapRange: length("The mean range there at neaps. Left out: from the tide's constants, 2(M2 − S2).", "2.0 m").optional(),
        table: z.array(hour).min(11).meta({ description: "A line for each hour from −6 to 6, in order." }),
      })
      .meta({ description: "A table by hours from high water, at springs and neaps." })
      .optional(),
  })
  .meta({
    description: "One tidal stream: constants, differences from a reference, or a table by hours.",
    oneOf: [{ required: ["constants"] }, { required: ["subordinate"] }, { required: ["byHours"] }],
    dependentRequired: { mean: ["constants"], acrossMean: ["constants"], axis: ["constants"] },
  });

/** Tidal streams by name. */
export const streamsSchema = z
  .array(stream)
  .min(1)
  .meta({ description: "Tidal streams by name: for gates, for `water`, and to hold forecasts of current against." });
