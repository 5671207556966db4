import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { examplesIn, runExample } from "./docstring-examples.ts";
import { roomOf } from "./layers.ts";
import { readSources, root } from "./source-files.ts";

const examples = [...readSources("src")].flatMap(([path, text]) => examplesIn(path, text).map((example) => ({ path, ...example })));

/** What an example may use: all that its room's index gives, and the units. */
async function scopeOf(path: string): Promise<Record<string, unknown>> {
  const room = roomOf(path) ?? "";
  return { ...(await import(join(root, "src/core/units/index.ts"))), ...(await import(join(root, "src", room, "index.ts"))) };
}

describe("the examples in docstrings", () => {
  it("are there", () => {
    expect(examples.length).toBeGreaterThan(0);
  });

  it.each(examples.map((example) => [`${example.path}:${example.line}`, example] as const))(
    "%s says what is so",
    async (_, { path, code }) => {
      const { checked, wrong } = await runExample(code, await scopeOf(path));
      expect(wrong).toEqual([]);
      expect(checked, "an example shows a value with // =>").toBeGreaterThan(0);
    },
  );
});

describe("running examples", () => {
  const scope = {
    twice: (x: number) => 2 * x,
    both: () => ({ eastMps: 1.25, north: [1, 2.5] }),
    fail: () => Promise.reject(new Error("no such knot")),
  };

  it("finds each @example with its line, without asterisks and fences, up to the next tag", () => {
    const text = [
      "/**",
      " * Doubles.",
      " *",
      " * @example",
      " * ```ts",
      " * twice(2) // => 4",
      " * ```",
      " * @returns twice",
      " */",
      "export const x = 1;",
      "// @example",
      "/* @example */",
    ];
    expect(examplesIn("a.ts", text.join("\n"))).toEqual([{ line: 4, code: "twice(2) // => 4" }]);
  });

  it.each([
    ["a number", "twice(2) // => 4"],
    ["a rounded number", "twice(1 / 3) // => 0.67"],
    ["a negative one", "twice(-1 / 3) // => -0.667"],
    ["an object with a list", "both() // => { eastMps: 1.3, north: [1, 2.5] }"],
    ["a constant, used again", "const four = twice(2); // => 4\ntwice(four) // => 8"],
    ["a call over several lines", "twice(\n  2,\n) // => 4"],
    ["what isn't there", "both().west // => undefined"],
    ["a promise", "Promise.resolve('a') // => 'a'"],
    ["an error", "await fail() // throws no such knot"],
  ])("passes %s that is right", async (_, code) => {
    expect(await runExample(code, scope)).toEqual({ checked: code.split("=>").length + code.split("throws").length - 2, wrong: [] });
  });

  it.each([
    ["a wrong number", "twice(2) // => 5"],
    ["a number that only nearly is", "twice(1 / 3) // => 0.66"],
    ["a whole number that isn't whole", "twice(1.0000001) // => 2"],
    ["a key too many", "both() // => { eastMps: 1.3 }"],
    ["a key too few", "both() // => { eastMps: 1.3, north: [1, 2.5], up: 0 }"],
    ["a list of another length", "both().north // => [1, 2.5, 3]"],
    ["a number for a text", "twice(2) // => '4'"],
    ["a name that isn't exported", "thrice(2) // => 6"],
    ["an error that doesn't come", "twice(2) // throws anything"],
    ["another error", "await fail() // throws no such mile"],
    ["code that can't be read", "twice(2 // => 4"],
    ["a value that can't be read", "twice(2) // => four of them"],
  ])("fails %s", async (_, code) => {
    expect((await runExample(code, scope)).wrong).toHaveLength(1);
  });

  it("counts nothing where nothing is shown, so that the example is refused", async () => {
    expect(await runExample("twice(2);", scope)).toEqual({ checked: 0, wrong: [] });
  });
});
