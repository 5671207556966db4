import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readPassage } from "../../../src/formats/passage/index.ts";
import { EXAMPLE } from "./example.ts";
import { REFERENCE_YAML } from "./fixture.ts";

const pieces = [
  "",
  " ",
  "\n",
  "\t",
  ":",
  ": ",
  "- ",
  "[",
  "]",
  "{",
  "}",
  ",",
  "'",
  '"',
  "#",
  "&a",
  "*a",
  "!x",
  "|",
  "-",
  "1e999",
  "NaN",
  ".inf",
  "0",
  "-5",
  "99999999999",
  "kn",
  "m",
  "null",
  "~",
  "°",
  "\u2032",
  "\u0000",
  "\ud800",
  "__proto__",
  "E",
  "UTC+99",
  "2027-13-40 9999",
];

/** One change to a text: some letters at a place are replaced. */
const change = fc.record({ at: fc.nat({ max: 9999 }), cut: fc.nat({ max: 12 }), put: fc.constantFrom(...pieces) });

function mutate(text: string, changes: readonly { readonly at: number; readonly cut: number; readonly put: string }[]): string {
  return changes.reduce((before, { at, cut, put }) => {
    const place = Math.floor((at / 10_000) * before.length);
    return before.slice(0, place) + put + before.slice(place + cut);
  }, text);
}

function numbersIn(value: unknown): readonly number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

describe("any text", () => {
  it("is read into finite numbers or into issues, each with its words and a line that exists; nothing is thrown", () => {
    let read = 0;
    fc.assert(
      fc.property(fc.constantFrom(EXAMPLE, REFERENCE_YAML), fc.array(change, { minLength: 1, maxLength: 3 }), (base, changes) => {
        const text = mutate(base, changes);
        const result = readPassage(text, { name: "passage.yaml" });
        if (result.ok) {
          read++;
          expect(result.value.text).toBe(text);
          for (const number of numbersIn(result.value.passage)) expect(Number.isFinite(number)).toBe(true);
        } else {
          expect(result.issues.length).toBeGreaterThan(0);
          const lines = text.split("\n").length;
          for (const one of result.issues) {
            expect(one.whatToDo).not.toBe("");
            expect(one.message).not.toMatch(/undefined|\[object/);
            if (!text.includes("NaN")) expect(one.message).not.toContain("NaN");
            const line = /^line (\d+): /.exec(one.message)?.[1];
            expect(Number(line)).toBeGreaterThanOrEqual(1);
            expect(Number(line)).toBeLessThanOrEqual(lines);
          }
        }
      }),
      { seed: 20270407, numRuns: 300, plugins: [fc.unbiased()] },
    );
    expect(read).toBeGreaterThan(20);
  });

  it("of any characters at all", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 300 }), (text) => {
        expect(readPassage(text, { name: "passage.yaml" }).ok).toBe(false);
      }),
      { seed: 11, numRuns: 300 },
    );
  });
});
