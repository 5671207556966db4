// @ts-check
// Bars and cuts broken on purpose.
const ENTRANCE = "src/core/places/entrance";
const unit = ["test/core/places/entrance/entrance-reader.test.ts", "test/core/places/entrance/inlet-clock.test.ts"];
const spans = ["test/core/places/entrance/state-spans.test.ts", ...unit];
const typed = ["test/formats/passage/entrances.test.ts"];
const keel = ["test/core/window/once.test.ts"];

/** @type {import("../../scripts/mutants.mjs").Mutant[]} */
export const mutants = [
  {
    name: "entrance: the draught forgotten where waves are not known",
    file: `${ENTRANCE}/entrance-reader.ts`,
    find: "const left = under ?? water - depth.draughtMetres;",
    replace: "const left = under ?? water;",
    tests: unit,
  },
  {
    name: "entrance: ebb and flood changed about",
    file: `${ENTRANCE}/entrance-reader.ts`,
    find: "const never = streamMps < 0 ? stream.ebbNeverMps : stream.floodNeverMps;",
    replace: "const never = streamMps > 0 ? stream.ebbNeverMps : stream.floodNeverMps;",
    tests: unit,
  },
  {
    name: "entrance: wind against the flood counted too",
    file: `${ENTRANCE}/entrance-reader.ts`,
    find: "streamMps === null || streamMps >= 0) return 0;",
    replace: "streamMps === null) return 0;",
    tests: unit,
  },
  {
    name: "entrance: slack counted on one side alone",
    file: `${ENTRANCE}/entrance-reader.ts`,
    find: "Math.abs(nearestAt - at) > within",
    replace: "nearestAt - at > within",
    tests: unit,
  },
  {
    name: "entrance: an unknown sea taken for none",
    file: `${ENTRANCE}/sea-on-bar.ts`,
    find: 'lacks.push("sea");',
    replace: "",
    tests: unit,
  },
  {
    name: "entrance: the stream left out of the sea",
    file: `${ENTRANCE}/sea-on-bar.ts`,
    find: "const current = stream?.vectorAt(at) ?? { alongWaveMps: 0 };",
    replace: "const current = { alongWaveMps: 0 };",
    tests: unit,
  },
  {
    name: "entrance: the depth left out of the sea",
    file: `${ENTRANCE}/sea-on-bar.ts`,
    find: "waveOnCurrent(one, current, waterMetres)",
    replace: "waveOnCurrent(one, current, null)",
    tests: unit,
  },
  {
    name: "entrance: an off-shore wind raises a sea on the bar",
    file: `${ENTRANCE}/sea-on-bar.ts`,
    find: "const SEAWARD_WITHIN_DEG = 90;",
    replace: "const SEAWARD_WITHIN_DEG = 200;",
    tests: unit,
  },
  {
    name: "entrance: what is not known counts as open",
    file: `${ENTRANCE}/entrance-states.ts`,
    find: "export const isOpen = (state: number): boolean => state === 0;",
    replace: "export const isOpen = (state: number): boolean => (state & ~NOT_JUDGED) === 0;",
    tests: unit,
  },
  {
    name: "entrance: what is not known counts as shut",
    file: `${ENTRANCE}/entrance-states.ts`,
    find: "(state & ~NOT_JUDGED) === 0;",
    replace: "state === 0;",
    tests: unit,
  },
  {
    name: "entrance: a change found to a minute",
    file: `${ENTRANCE}/state-spans.ts`,
    find: "export const CHANGE_WITHIN_SECONDS = 0.5;",
    replace: "export const CHANGE_WITHIN_SECONDS = 60;",
    tests: spans,
  },
  {
    name: "entrance: the sun ahead does not blind",
    file: `${ENTRANCE}/sun-for-eye.ts`,
    find: "if (offBowDeg < offBow.leastDeg)",
    replace: "if (offBowDeg > offBow.leastDeg)",
    tests: unit,
  },
  {
    name: "entrance: a spell's reasons at their best",
    file: `${ENTRANCE}/worst-reasons.ts`,
    find: "gravity(reason) > gravity(known)",
    replace: "gravity(reason) < gravity(known)",
    tests: unit,
  },
  {
    name: "entrance: a name that isn't there let pass",
    file: "src/formats/passage/read-entrance.ts",
    find: "names.includes(name)) return name;",
    replace: "true) return name;",
    tests: typed,
  },
  {
    name: "under keel: the highest of a computed tide",
    file: "src/core/window/once/under-keel-felt.ts",
    find: "height >= lowest) continue;",
    replace: "height <= lowest) continue;",
    tests: keel,
  },
];
