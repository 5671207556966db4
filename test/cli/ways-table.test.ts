import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { TABLE_DEPARTURES, type TableAnswer, waysTable, withTable } from "../../scripts/house/ways-table.mjs";
import { runJson } from "./run.ts";

describe("the README's table of ways", () => {
  it("is what the program answers (made by npm run docs)", async () => {
    const answers = [];
    for (const at of TABLE_DEPARTURES) answers.push((await runJson("cross", "--demo", "--at", at)) as unknown as TableAnswer);
    const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
    expect(withTable(readme, waysTable(answers))).toBe(readme);
    for (const { fastest } of answers) expect(fastest?.arrives).toBe(true);
  });

  it("needs its place in the text", () => {
    expect(() => withTable("no marks here", "| a |")).toThrow(/no place/);
  });
});
