// @ts-check
// Unit conversions broken on purpose.
const CONVERSIONS = "src/core/units/conversions.ts";
const tests = ["test/core/units/amounts.test.ts", "test/core/units/wind-and-sea.test.ts"];

/** @type {import("../../scripts/mutants.mjs").Mutant[]} */
export const mutants = [
  {
    name: "units: the statute mile for the nautical",
    file: CONVERSIONS,
    find: "METRES_PER_NM = 1852;",
    replace: "METRES_PER_NM = 1609.344;",
    tests,
  },
  {
    name: "units: a third of a yard a little short",
    file: CONVERSIONS,
    find: "METRES_PER_FOOT = 0.3048;",
    replace: "METRES_PER_FOOT = 0.3;",
    tests,
  },
  {
    name: "units: the imperial gallon for the American",
    file: CONVERSIONS,
    find: "LITRES_PER_US_GALLON = 3.785411784;",
    replace: "LITRES_PER_US_GALLON = 4.54609;",
    tests,
  },
  {
    name: "units: the American gallon for the imperial",
    file: CONVERSIONS,
    find: "LITRES_PER_IMPERIAL_GALLON = 4.54609;",
    replace: "LITRES_PER_IMPERIAL_GALLON = 3.785411784;",
    tests,
  },
  { name: "units: miles an hour for knots", file: CONVERSIONS, find: "MPS_PER_MPH = 0.44704;", replace: "MPS_PER_MPH = 0.5144;", tests },
  {
    name: "units: kilometres an hour by the minute",
    file: CONVERSIONS,
    find: "MPS_PER_KMH = 1000 / SECONDS_PER_HOUR;",
    replace: "MPS_PER_KMH = 1000 / 60;",
    tests,
  },
  {
    name: "units: the fathom a foot short",
    file: CONVERSIONS,
    find: "METRES_PER_FATHOM = 1.8288;",
    replace: "METRES_PER_FATHOM = 1.524;",
    tests,
  },
  {
    name: "units: knots turned about",
    file: CONVERSIONS,
    find: "knots * MPS_PER_KNOT;",
    replace: "knots / MPS_PER_KNOT;",
    tests: ["test/outside/hand-worked/wind-shift.test.ts"],
  },
  {
    name: "units: a share of a hundredth made a tenth",
    file: "src/core/units/volume.ts",
    find: '"%": 0.01',
    replace: '"%": 0.1',
    tests: [...tests, "test/formats/passage/read-limits.test.ts"],
  },
];
