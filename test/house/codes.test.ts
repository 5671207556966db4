import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { codesText, tableOf } from "../../scripts/house/codes-text.mjs";
import { codes } from "../../src/core/answers/index.ts";
import { codeUses } from "./raised-codes.ts";
import { readSources, root } from "./source-files.ts";

const tablesFolder = "src/core/answers/codes/";
const tables = await Promise.all(
  readdirSync(join(root, tablesFolder))
    .filter((name) => name.endsWith(".ts"))
    .sort()
    .map(async (name) => ({ room: name.replace(/\.ts$/, ""), table: tableOf(await import(join(root, tablesFolder, name))) })),
);
const entries = tables.flatMap(({ room, table }) => Object.entries(table).map(([code, entry]) => ({ room, code, entry })));
const registered: ReadonlySet<string> = new Set(Object.keys(codes));

const uses = [...readSources("src")]
  .filter(([path]) => !path.startsWith(tablesFolder) && path !== "src/core/answers/codes.ts")
  .map(([path, text]) => ({ path, ...codeUses(path, text) }));

/** A sentence as it is printed: a capital, a figure or a quoted key at its head, a stop at its end, and something between. */
function isSentence(text: string): boolean {
  return /^["“'`A-Z0-9]/.test(text) && /[.?!]$/.test(text) && text.includes(" ");
}

describe("the registry of codes", () => {
  it("joins every room's table, and no code stands in two", () => {
    const all = entries.map(({ code }) => code);
    expect(all.filter((code, at) => all.indexOf(code) !== at)).toEqual([]);
    expect([...registered].sort()).toEqual(all.sort());
    expect(all.length).toBeGreaterThan(0);
  });

  it("names codes in short lower-case words joined by hyphens", () => {
    expect([...registered].filter((code) => !/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/.test(code))).toEqual([]);
  });

  it("says in whole sentences what each means and what to do", () => {
    const poor = entries.filter(({ entry }) => !isSentence(entry.meaning) || !isSentence(entry.whatToDo));
    expect(poor.map(({ room, code }) => `${room}: ${code}`)).toEqual([]);
  });

  it("holds no code that nothing raises", () => {
    const raised = new Set(uses.flatMap((file) => [...file.raised]));
    expect([...registered].filter((code) => !raised.has(code))).toEqual([]);
  });

  it("holds every code that anything names", () => {
    const unknown = uses.flatMap(({ path, named }) => [...named].filter((code) => !registered.has(code)).map((code) => `${path}: ${code}`));
    expect(unknown).toEqual([]);
  });

  it("stands in docs/codes.md as it is (npm run docs makes it anew)", () => {
    expect(readFileSync(join(root, "docs", "codes.md"), "utf8")).toBe(codesText(tables));
  });
});

describe("finding raised codes", () => {
  const raisedIn = (text: string): string[] => [...codeUses("a.ts", text).raised];

  it("takes a string that makes a value", () => {
    expect(
      raisedIn(`issue("path", "no-wind", "m"); const a = { code: "stalled" }; const f = () => "late"; const g = b ? "c" : ["d"];`),
    ).toEqual(["path", "no-wind", "m", "stalled", "late", "c", "d"]);
  });

  it("takes no type, comparison, case, key or question after the meaning", () => {
    const text = `type A = "a"; if (x === "b" || "c" !== x || "k" in x) {} switch (x) { case "d": } const o = { "e": 1 }; o["f"]; meaningOf("g"); // "h"`;
    expect(raisedIn(text)).toEqual([]);
  });

  it("knows which codes a property or a type named code holds", () => {
    const text = `interface N { readonly code: "a" | "b" } const n = { code: "c", kind: "d" };`;
    expect([...codeUses("a.ts", text).named]).toEqual(["a", "b", "c"]);
  });
});

describe("docs/codes.md", () => {
  const entry = { kind: "noAnswer", meaning: "There is none.", whatToDo: "Wait for more." };

  it("has a heading for each room that has codes", () => {
    const text = codesText([
      { room: "passage-file", table: { "no-wind": entry } },
      { room: "boat", table: {} },
    ]);
    expect(text).toContain(
      "## Passage file\n\n### `no-wind`\n\nThere is none. *(the sea or the data has no answer)*\n\nWhat to do: Wait for more.\n",
    );
    expect(text).not.toContain("## Boat");
  });

  it("refuses a table's file that exports none or several", () => {
    expect(tableOf({ boatCodes: { "no-wind": entry }, other: 1 })).toEqual({ "no-wind": entry });
    expect(() => tableOf({ other: 1 })).toThrow("other");
    expect(() => tableOf({ aCodes: {}, bCodes: {} })).toThrow("aCodes, bCodes");
  });
});
