// @ts-check
// Gates broken on purpose.
const PLACES = "src/core/places";
const tests = [
  "test/core/places/gate-chain.test.ts",
  "test/core/places/gate-needs.test.ts",
  "test/core/window/gates/passage-gates.test.ts",
];

/** @type {import("../../scripts/mutants.mjs").Mutant[]} */
export const mutants = [
  {
    name: "gates: open where it is closed by the clock",
    file: `${PLACES}/gate-needs.ts`,
    find: "return known(spansOutside(ruleSpans(need.rules, within), within));",
    replace: "return known(ruleSpans(need.rules, within));",
    tests,
  },
  {
    name: "gates: any need will do",
    file: `${PLACES}/gate-needs.ts`,
    find: "open: commonSpans(both.open, open)",
    replace: "open: joinedSpans([...both.open, ...open])",
    tests,
  },
  {
    name: "gates: no waiting",
    file: `${PLACES}/gate-chain.ts`,
    find: "movedSpans(reached, 0, stop.waitSeconds)",
    replace: "movedSpans(reached, 0, 0)",
    tests,
  },
  {
    name: "gates: the way between them takes no time",
    file: `${PLACES}/gate-chain.ts`,
    find: "movedSpans(leaves, stop.afterSeconds - before)",
    replace: "movedSpans(leaves, 0)",
    tests,
  },
  {
    name: "gates: late by the opening's beginning",
    file: `${PLACES}/gate-chain.ts`,
    find: "seconds: reachedAt - before.until",
    replace: "seconds: reachedAt - before.from",
    tests,
  },
  {
    name: "gates: early counted without the wait",
    file: `${PLACES}/gate-chain.ts`,
    find: ".until + stop.waitSeconds;",
    replace: ".until;",
    tests,
  },
  {
    name: "gates: what is not known is open",
    file: `${PLACES}/gate-chain.ts`,
    find: "this.goThrough(startAt, (stop) => stop.spans(startAt).open);\n    if",
    replace: "this.goThrough(startAt, (stop) => stop.spans(startAt).maybe);\n    if",
    tests,
  },
  {
    name: "gates: an office told when the boat is there",
    file: `${PLACES}/gate-stop.ts`,
    find: "const latest = arrivalAt - notice.leastSeconds;",
    replace: "const latest = arrivalAt;",
    tests: [...tests, "test/outside/gates.test.ts"],
  },
];
