import { z } from "zod";
import { angle, bearing, entry, length, speed, text, time } from "./leaf.ts";

const timeOfDay = (description: string, example: string) => entry(`${description} By the clock there.`, [example], "number");

const openings = {
  from: timeOfDay("Open at any time from this hour.", "0900").optional(),
  until: timeOfDay("Until this one; at or before `from` it is on the next day.", "1700").optional(),
  every: entry("With `from` and `until`: opened not at any time but so often, from `from` on.", ["30 min", "1 h"]).optional(),
  at: z
    .array(timeOfDay("One opening.", "1730"))
    .min(1)
    .meta({ description: "Instead of hours: the times at which it is opened." })
    .optional(),
  stays: entry("How long it stays open at each time of `at` or `every`. Left out: she must be there at the time itself.", [
    "5 min",
  ]).optional(),
};

const onHoliday = z.strictObject(openings).meta({ description: "One opening of a holiday." });

const rule = z
  .strictObject({
    ...openings,
    days: entry("The weekdays on which it holds. Left out: daily.", ["mon-fri", "sat, sun", "daily"]).optional(),
    season: entry("The part of the year in which it holds, both days included. Left out: all of it.", ["1 May to 30 Sep"]).optional(),
  })
  .meta({ description: "Hours, or times, on some days." });

const shut = z
  .strictObject({
    from: timeOfDay("Shut from this hour.", "0700"),
    until: timeOfDay("Until this one.", "0900"),
    days: entry("The weekdays on which it holds. Left out: daily.", ["mon-fri"]).optional(),
    season: entry("The part of the year in which it holds. Left out: all of it.", ["1 May to 30 Sep"]).optional(),
  })
  .meta({ description: "Hours in which it is not opened." });

const gate = z
  .strictObject({
    name: text("What it is called in sentences.", "the swing bridge"),
    on: z.enum(["out", "in"]).meta({ description: "On the way out of harbour, or in." }),
    at: entry(
      "How far along `pilotageOut` from the berth, or along `pilotageIn` from open water: a distance, a time, or `berth`. Left out: where open water begins or ends.",
      ["1.2 nm", "20 min", "berth"],
    ).optional(),
    zone: entry("The time kept there. Left out: ship's time for a gate on the way out, the arrival's for one on the way in.", [
      "UTC-4",
    ]).optional(),
    wait: entry("How long a boat can lie before it. `no`, or left out: not at all.", ["3 h", "20 min", "no"], "boolean").optional(),
    clearance: length("Of a bridge: height over the water when shut. A boat that fits under needs no opening.", "6.5 m").optional(),
    opens: z.array(rule).min(1).meta({ description: "When it opens by the clock; any of these." }).optional(),
    shut: z.array(shut).min(1).meta({ description: "Hours in which it does not, whatever `opens` says." }).optional(),
    holidays: z
      .array(entry("One day.", ["2027-04-08"]))
      .min(1)
      .meta({ description: "Days on which `opens` and `shut` do not hold." })
      .optional(),
    onHolidays: z.array(onHoliday).min(1).meta({ description: "When it opens on those days. Left out: not at all." }).optional(),
    windows: z
      .array(z.strictObject({ from: time("It can be passed from then."), until: time("Until then.") }).meta({ description: "One window." }))
      .min(1)
      .meta({ description: "When it can be passed, as you worked it out. Before the first and after the last nothing is known." })
      .optional(),
    around: z
      .strictObject({
        times: z.array(time("One slack, or one high water.")).min(1).meta({ description: "The slacks or high waters." }),
        before: entry("Passable from so long before each.", ["2 h"]),
        after: entry("Until so long after it.", ["1 h"]),
      })
      .meta({ description: "Windows around slack or high waters that you give." })
      .optional(),
    light: z
      .enum(["any", "daylight"])
      .meta({ description: "`daylight`: only with the sun no lower than 6 degrees below the horizon." })
      .optional(),
    sill: z
      .strictObject({
        depth: length("Charted at the shallowest; below nought where it dries.", "0.8 m"),
        underKeel: length("The least you want under the keel.", "0.5 m"),
        heights: z
          .array(
            z
              .strictObject({ at: time("When."), height: length("Height of the tide above chart datum.", "1.9 m") })
              .meta({ description: "One height." }),
          )
          .min(2)
          .meta({ description: "Heights of the tide, at most an hour apart: between them straight lines are drawn." })
          .optional(),
        tide: text("Instead of `heights`: the tide of `tides` that is computed, by its name.", "Morrel Bar").optional(),
        waves: length("With `tide`: what to allow for the boat's fall in the waves. Left out: nothing.", "0.3 m").optional(),
      })
      .meta({
        description: "Water enough over a sill inside, by heights of the tide that you give or by a computed tide.",
        oneOf: [{ required: ["heights"] }, { required: ["tide"] }],
        dependentRequired: { waves: ["tide"] },
      })
      .optional(),
    stream: z
      .strictObject({
        of: text("The stream of `streams` that runs there, by its name.", "the Cut"),
        never: speed("Never more than this, ebb or flood.", "2 kn").optional(),
        ebbNever: speed("Never more ebb than this; instead of `never`.", "1.5 kn").optional(),
        floodNever: speed("Never more flood than this; instead of `never`.", "3 kn").optional(),
        slack: entry("Passed only so long before and after a slack.", ["20 min"]).optional(),
      })
      .meta({ description: "The tidal stream in it, with its own slack." })
      .optional(),
    bar: z
      .strictObject({
        depth: length("Charted at the shallowest; below nought where it dries.", "2.4 m"),
        underKeel: length("The least you want under the keel.", "1 m"),
        tide: text("The tide of `tides` over it, by its name.", "Morrel Bar"),
        waves: length("What to allow for the boat's fall in the waves. Left out: the significant height on the bar.", "0.5 m").optional(),
        sea: length("Never a significant height above this on the bar.", "1.5 m").optional(),
        steepness: entry("Never a sea steeper than this on the bar, height over length. Left out: any that does not break.", [
          "1/20",
        ]).optional(),
        period: entry("The sea's period to reckon with where the forecast gives none.", ["9 s"]).optional(),
        from: bearing("Where the forecast's sea comes from. Left out: straight against the ebb, which is the worst.", "240").optional(),
        fetch: length(
          "Open water to seaward over which the wind raises a sea of its own. Left out: the forecast's sea has it in.",
          "12 nm",
        ).optional(),
        windAgainst: entry("Never more wind against the ebb: knots of wind against the set times knots of ebb.", ["30 kn2"]).optional(),
      })
      .meta({ description: "A bar: water enough on the computed tide, and the sea that the stream and the depth make of the forecast's." })
      .optional(),
    byEye: z
      .strictObject({
        sunAbove: angle("The sun no lower than this.", "25 deg"),
        sunOffBow: angle("And no nearer to the bow than this.", "45 deg").optional(),
        course: bearing("The course through it, for `sunOffBow`.", "215").optional(),
      })
      .meta({
        description: "It is read by eye: the sun high enough, and not ahead.",
        dependentRequired: { sunOffBow: ["course"], course: ["sunOffBow"] },
      })
      .optional(),
    notes: text("How it lies: straight or crooked, what it is read by. Shown beside it.", "two dog-legs, unlit").optional(),
    office: z
      .strictObject({
        ashore: entry("From the berth to its door. Left out: nothing.", ["20 min"]).optional(),
        notice: z
          .strictObject({
            least: entry("It wants to know at least so long before the arrival at the berth, within its hours.", ["4 h"]),
            most: entry("And no earlier than so long before. Left out: two days, or `least` where that is longer.", ["72 h"]).optional(),
          })
          .meta({ description: "The notice it wants." })
          .optional(),
      })
      .meta({ description: "It is an office behind the berth: its hours are `opens`." })
      .optional(),
  })
  .meta({
    description: "One gate. All that it asks for must hold at once.",
    dependentRequired: { onHolidays: ["holidays"], holidays: ["opens"] },
  });

/** What opens and shuts on the way, out of harbour and in. */
export const gatesSchema = z
  .array(gate)
  .min(1)
  .meta({ description: "What opens and shuts on the way: bridges, locks, bars, slack, offices; gone through as a chain." });
