import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Breach, checkHouse } from "./check-house.ts";
import { readSources, root } from "./source-files.ts";

const packages = Object.keys(JSON.parse(readFileSync(join(root, "package.json"), "utf8")).dependencies);
const paragraph = "/** What belongs here, its units and its senses, told in one paragraph that is long enough to say something. */\n";

/** A small house that keeps every rule; what is given is built into it. */
function planted(changes: Readonly<Record<string, string>>): readonly Breach[] {
  const house = {
    "src/core/answers/index.ts": `${paragraph}export const ok = 1;\n`,
    "src/core/units/index.ts": `${paragraph}export { knot } from "./knot.ts";\n`,
    "src/core/units/knot.ts": `import { ok } from "../answers/index.ts";\nexport const knot = ok;\n`,
    "src/core/water/index.ts": `${paragraph}export const still = 0;\n`,
    "src/core/boat/index.ts": `${paragraph}export const draught = 2;\n`,
    "src/formats/grib/index.ts": `${paragraph}import { knot } from "../../core/units/index.ts";\nexport const grib = knot;\n`,
    "src/formats/passage/index.ts": `${paragraph}export const passage = 1;\n`,
    "src/cli/main.ts": `import { grib } from "../formats/grib/index.ts";\nexport const main = grib;\n`,
    ...changes,
  };
  return checkHouse(new Map(Object.entries(house)), ["yaml", "temporal-polyfill", "h5wasm"]).breaches;
}

function rulesOf(changes: Readonly<Record<string, string>>): string[] {
  return [...new Set(planted(changes).map((breach) => breach.rule))].sort();
}

describe("the house", () => {
  const checked = checkHouse(readSources("src"), packages);

  it("saw every TypeScript file on disk, and imports in them", () => {
    const onDisk = readdirSync(join(root, "src"), { recursive: true, encoding: "utf8" }).filter((name) => /\.tsx?$/.test(name));
    expect(checked.files.length).toBe(onDisk.length);
    expect(checked.importCount).toBeGreaterThan(onDisk.length);
  });

  it("keeps its rules: layers, doors, no cycles, no clock and no chance in the core, paragraphs, nothing heavy at load", () => {
    expect(checked.breaches.map(({ rule, where, what }) => `${rule}: ${where}: ${what}`)).toEqual([]);
  });
});

describe("the checker", () => {
  it("lets a house pass that keeps the rules", () => {
    expect(planted({})).toEqual([]);
  });

  it.each([
    ["import", `import { still } from "../water/index.ts";`],
    ["import type", `import type { still } from "../water/index.ts";`],
    ["an import for its effect", `import "../water/index.ts";`],
    ["export from", `export { still } from "../water/index.ts";`],
    ["export all from", `export * from "../water/index.ts";`],
    ["export type from", `export type { still } from "../water/index.ts";`],
    ["import()", `export const later = () => import("../water/index.ts");`],
    ["import() of a template", "export const later = () => import(`../water/index.ts`);"],
    ["the type import()", `export type Still = typeof import("../water/index.ts").still;`],
    ["new URL", `export const place = new URL("../water/index.js", import.meta.url);`],
    ["import.meta.resolve", `export const place = import.meta.resolve("../water/index.ts");`],
    ["import = require", `import water = require("../water/index.ts");`],
    ["declare module", `declare module "../water/index.ts" { interface Added { readonly one: 1 } }`],
  ])("sees a higher layer through %s", (_, line) => {
    const breaches = planted({ "src/core/units/knot.ts": `${line}\nexport const knot = 1;\n` });
    expect(breaches.map((breach) => breach.rule)).toContain("layer");
    expect(breaches.find((breach) => breach.rule === "layer")?.where).toBe("src/core/units/knot.ts:1");
  });

  it.each([
    ["a sibling on the same row", { "src/core/boat/hull.ts": `import { still } from "../water/index.ts";` }, ["layer"]],
    ["the core reaching out", { "src/core/boat/hull.ts": `import { grib } from "../../formats/grib/index.ts";` }, ["layer"]],
    [
      "formats reaching the command line",
      { "src/formats/grib/out.ts": `import { main } from "../../cli/main.ts";` },
      ["layer", "not by index"],
    ],
    [
      "the page reaching another format",
      { "src/web/page.ts": `import "../formats/passage/index.ts";\nimport "../formats/grib/index.ts";` },
      ["layer"],
    ],
    ["a room's inside from outside", { "src/core/boat/hull.ts": `import { knot } from "../units/knot.ts";` }, ["not by index"]],
    ["a room's index from inside", { "src/core/units/mile.ts": `import { knot } from "./index.ts";` }, ["index of its own room"]],
    ["a file that is not there", { "src/core/units/mile.ts": `import { foot } from "./foot.ts";` }, ["no such file"]],
    ["an import without its ending", { "src/core/units/mile.ts": `import { knot } from "./knot";` }, ["no such file"]],
    [
      "an import from outside src",
      { "src/cli/version.ts": `import file from "../../package.json" with { type: "json" };` },
      ["outside src"],
    ],
    [
      "a file of the checkout by its address, from the core",
      { "src/core/units/mile.ts": `new URL("../../../demo/x", import.meta.url);` },
      ["outside src"],
    ],
    [
      "an address reckoned at run time",
      { "src/cli/load.ts": "export const load = (name: string) => import(`./` + name);" },
      ["computed import"],
    ],
    ["require", { "src/cli/load.ts": `const yaml = require("yaml");` }, ["computed import"]],
    ["createRequire", { "src/cli/load.ts": `const require = createRequire(import.meta.url);` }, ["computed import"]],
    ["a package that is no dependency", { "src/cli/load.ts": `import "left-over/inner.js";` }, ["unknown package"]],
    [
      "times outside calendar, words and formats",
      { "src/core/boat/hull.ts": `import { Temporal } from "temporal-polyfill";` },
      ["package out of place"],
    ],
    ["Node in the core", { "src/core/boat/hull.ts": `import { readFileSync } from "node:fs";` }, ["Node in a pure room"]],
    ["Node without its prefix", { "src/core/boat/hull.ts": `import { readFileSync } from "fs";` }, ["Node in a pure room"]],
    ["Node behind the page", { "src/formats/passage/read.ts": `import type { Stats } from "node:fs";` }, ["Node in a pure room"]],
    ["Date.now", { "src/core/boat/hull.ts": "export const at = Date.now();" }, ["impure core"]],
    ["Date.now by another spelling", { "src/core/boat/hull.ts": `export const at = globalThis.Date["now"]();` }, ["impure core"]],
    ["now taken out of Date", { "src/core/boat/hull.ts": "const { now } = Date;\nexport const at = now;" }, ["impure core"]],
    ["new Date()", { "src/core/boat/hull.ts": "export const at = new Date();" }, ["impure core"]],
    ["Date()", { "src/core/boat/hull.ts": "export const at = Date();" }, ["impure core"]],
    ["Temporal.Now", { "src/core/boat/hull.ts": "export const at = Temporal.Now.instant();" }, ["impure core"]],
    ["Math.random", { "src/core/boat/hull.ts": "export const chance = Math.random;" }, ["impure core"]],
    ["a file outside any room", { "src/core/loose.ts": "export {};" }, ["outside any room"]],
    ["a room nobody planned", { "src/core/attic/index.ts": `${paragraph}export {};` }, ["unknown room"]],
    ["a room without an index", { "src/core/sea/wave.ts": "export {};" }, ["no index"]],
    ["a room without a paragraph", { "src/core/water/index.ts": "/** Water. */\nexport const still = 0;" }, ["no opening paragraph"]],
    [
      "a paragraph that is no doc comment",
      { "src/core/water/index.ts": `//${" long".repeat(30)}\nexport const still = 0;` },
      ["no opening paragraph"],
    ],
    ["a file that is no TypeScript", { "src/core/boat/hull.ts": "export const = ;" }, ["unreadable"]],
  ])("sees %s", (_, changes, rules) => {
    expect(rulesOf(changes)).toEqual(rules);
  });

  it("sees a cycle, by types alone too, and tells the way round", () => {
    const breaches = planted({
      "src/core/boat/a.ts": `import type { b } from "./b.ts";`,
      "src/core/boat/b.ts": `export type { c } from "./c.ts";`,
      "src/core/boat/c.ts": `export type A = typeof import("./a.ts");`,
    });
    expect(breaches.map((breach) => breach.what)).toEqual([
      "src/core/boat/a.ts → src/core/boat/b.ts → src/core/boat/c.ts → src/core/boat/a.ts",
    ]);
  });

  it("sees what is heavy behind an index, but not behind a function or a type", () => {
    const index = `${paragraph}export { read } from "./read.ts";\n`;
    const heavy = (line: string): string[] => rulesOf({ "src/formats/netcdf/index.ts": index, "src/formats/netcdf/read.ts": line });
    expect(heavy(`import { File } from "h5wasm";\nexport const read = File;`)).toEqual(["heavy at load"]);
    expect(heavy(`import { type File } from "h5wasm";\nexport const read = 1;`)).toEqual(["heavy at load"]);
    expect(heavy(`import type { File } from "h5wasm";\nexport const read = 1;`)).toEqual([]);
    expect(heavy(`export const read = () => import("h5wasm");`)).toEqual([]);
  });

  it("leaves what is pure alone: a Date of a given instant, a comment or a string that names the clock", () => {
    const line = `/* Date.now() */ export const at = new Date(0).getTime() + "Math.random()".length;`;
    expect(rulesOf({ "src/core/boat/hull.ts": line })).toEqual([]);
  });

  it("lets a file of the checkout be found by its address where files are the job", () => {
    expect(rulesOf({ "src/cli/version.ts": `export const place = new URL("../../package.json", import.meta.url);` })).toEqual([]);
  });
});
