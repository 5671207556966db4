import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";
import { readSources, root } from "./source-files.ts";

const longestFile = 350;

/** Written in pieces, so that this file doesn't hold what it looks for. */
const machinePaths = new RegExp(
  `(?<![\\w.~-])/(${["tm" + "p", "wor" + "k", "far" + "m", "roo" + "t", "hom" + "e", "User" + "s"].join("|")})/\\w`,
);
const registryHosts = new RegExp(`registry\\.(${["npm" + "js", "yarn" + "pkg"].join("|")})|npm\\.pkg\\.${"git" + "hub"}`);
const leftInTests = /\b(?:describe|it|test)(?:\.\w+)*\.(?:skip|only|todo)\b/;
const binary = /\.(grib2?|grb2?|nc|png|jpe?g|ico|woff2?|sqlite|gz|zip|pdf|bufr)$/i;

/** Files of the project, tracked or new, as git sees them; where there is no git, all but what is made. */
function projectFiles(): string[] {
  try {
    const listed = execFileSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], {
      cwd: root,
      encoding: "utf8",
      stdio: "pipe",
    });
    return listed.split("\0").filter((path) => path !== "" && existsSync(join(root, path)));
  } catch {
    const made = new Set(["node_modules", "dist", "coverage", ".git"]);
    return readdirSync(root, { withFileTypes: true })
      .filter((entry) => !made.has(entry.name))
      .flatMap((entry) => (entry.isDirectory() ? readdirSync(join(root, entry.name), { recursive: true, withFileTypes: true }) : [entry]))
      .filter((entry) => entry.isFile())
      .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join("/"));
  }
}

function linesWith(pattern: RegExp, text: string): number[] {
  return text.split("\n").flatMap((line, at) => (pattern.test(line) ? [at + 1] : []));
}

const files = projectFiles();
const texts = files.filter((path) => !binary.test(path)).map((path) => ({ path, text: readFileSync(join(root, path), "utf8") }));

function placesOf(pattern: RegExp, among = texts): string[] {
  return among.flatMap(({ path, text }) => linesWith(pattern, text).map((line) => `${path}:${line}`));
}

describe("what is written in the project", () => {
  it("was seen: sources, tests, scripts and settings", () => {
    for (const path of ["package.json", "src/core/units/index.ts", "test/house/words.test.ts", "scripts/test.mjs", ".ci/run"])
      expect(files).toContain(path);
  });

  it("names no path of one machine", () => {
    expect(placesOf(machinePaths)).toEqual([]);
  });

  it("names no package registry", () => {
    expect(placesOf(registryHosts)).toEqual([]);
  });

  it("leaves no test skipped or alone, save where a condition skips it aloud", () => {
    expect(
      placesOf(
        leftInTests,
        texts.filter(({ path }) => path.startsWith("test/")),
      ),
    ).toEqual([]);
  });

  it(`keeps every source to ${longestFile} lines`, () => {
    const long = [...readSources("src")]
      .map(([path, text]) => ({ path, lines: text.trimEnd().split("\n").length }))
      .filter(({ lines }) => lines > longestFile);
    expect(long).toEqual([]);
  });
});

describe("the patterns", () => {
  it("find a path of a machine, but not a way inside the project or an address", () => {
    const folder = "/" + "tm" + "p/";
    expect(linesWith(machinePaths, `ok\nread("${folder}a.nc")`)).toEqual([2]);
    expect(linesWith(machinePaths, `see ${"/" + "hom" + "e/"}ann`)).toEqual([1]);
    expect(linesWith(machinePaths, "test/outside/ and ../shared/data, https://example.org/work/a, /workers/, ~/home/x")).toEqual([]);
  });

  it("find a registry's host", () => {
    expect(linesWith(registryHosts, `https://registry.${"npm" + "js"}.org/yaml`)).toEqual([1]);
    expect(linesWith(registryHosts, "the registry of codes")).toEqual([]);
  });

  it("find a test that was left out, but not a condition", () => {
    const word = "ski" + "p";
    expect(linesWith(leftInTests, `it.${word}("a", f)\ndescribe.${"onl" + "y"}("b", f)\ntest.concurrent.${word}("c", f)`)).toEqual([
      1, 2, 3,
    ]);
    expect(linesWith(leftInTests, `describe.${word}If(x)("a", f); split.${word}()`)).toEqual([]);
  });
});
