import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mpsFromKnots } from "../../../src/core/units/index.ts";
import { parseSailTable } from "../../../src/formats/sail-table/index.ts";

function pointsOf(text: string) {
  const parsed = parseSailTable(text);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return parsed.value;
}
function found(text: string): string[] {
  const parsed = parseSailTable(text, "Tansy's table");
  return parsed.ok ? [] : parsed.issues.map((one) => `${one.path}: ${one.code}`);
}

describe("a sail table as text", () => {
  const expected = pointsOf("angle 6 10\n52 4.5 5.3\n120 5 6");

  it("is read with wind speeds across and angles down, in knots", () => {
    expect(expected).toEqual([
      { trueWindAngleDeg: 52, trueWindMps: mpsFromKnots(6), speedMps: mpsFromKnots(4.5) },
      { trueWindAngleDeg: 52, trueWindMps: mpsFromKnots(10), speedMps: mpsFromKnots(5.3) },
      { trueWindAngleDeg: 120, trueWindMps: mpsFromKnots(6), speedMps: mpsFromKnots(5) },
      { trueWindAngleDeg: 120, trueWindMps: mpsFromKnots(10), speedMps: mpsFromKnots(6) },
    ]);
  });

  it("is read as docs/passage.md shows it", () => {
    const text = /```text\n(# from the certificate[\s\S]*?)```/.exec(readFileSync("docs/passage.md", "utf8"))?.[1] ?? "";
    expect(pointsOf(text)).toHaveLength(6);
    expect(pointsOf(text)).toContainEqual({ trueWindAngleDeg: 90, trueWindMps: mpsFromKnots(16), speedMps: mpsFromKnots(6.9) });
  });

  it.each([
    ["tabs", "TWA\t6\t10\n52\t4.5\t5.3\n120\t5\t6"],
    ["commas and spaces", "true wind angle, 6, 10\r\n52, 4.5, 5.3\r\n120, 5, 6\r\n"],
    ["semicolons and decimal commas", ";6;10;\n52;4,5;5,3;\n120;5;6;\n"],
    ["no word in the corner", "      6   10\n52  4.5  5.3\n120 5.0  6.0"],
    [
      "units, remarks, blank lines and a byte-order mark",
      "\uFEFF# Tansy, clean hull\nangle,6 kn,10kts\n\n52°,4.5,5.3\n# off the wind\n120 deg,5 kn,6",
    ],
    ["several words in the corner", "True wind (kn) 6 10\n52 4.5 5.3\n120 5 6"],
  ])("may be separated by or hold %s", (_, text) => {
    expect(pointsOf(text)).toEqual(expected);
  });

  it("names line and column of every hole", () => {
    expect(found("angle\t6\t10\t16\n52\t\t5.3\t-\n120\t5\t6\n")).toEqual([
      "Tansy's table line 2 column 2: sail-table-hole",
      "Tansy's table line 2 column 4: sail-table-hole",
      "Tansy's table line 3 column 4: sail-table-hole",
    ]);
    const parsed = parseSailTable("angle 6 10\n52 4.5 -\n120 5 6");
    expect(parsed.ok ? "" : parsed.issues[0].message).toBe('No speed is given at 52° in 10 kn of wind (found "-").');
  });

  it("names everything else that is wrong, all at once", () => {
    const text = "angle 6 10\n52 4.5 fast\n52 4 5\n45 4 5\n190 4 5\nabout 4 5\n120 31 -5\n130 4 5 6";
    expect(found(text)).toEqual([
      "Tansy's table line 2 column 3: sail-table-speed",
      "Tansy's table line 3 column 1: sail-table-duplicate",
      "Tansy's table line 4 column 1: sail-table-angle",
      "Tansy's table line 5 column 1: sail-table-angle",
      "Tansy's table line 6 column 1: sail-table-angle",
      "Tansy's table line 7 column 2: sail-table-speed",
      "Tansy's table line 7 column 3: sail-table-speed",
      "Tansy's table line 8: sail-table-layout",
    ]);
  });

  it.each(["Beat VMG 3.1 4.0", "Run VMG 3 4", "Beat 44 42", "Gybe angles 150 155"])("tells what to do with a line such as %s", (line) => {
    expect(found(`angle 6 10\n52 4.5 5.3\n${line}\n120 5 6`)).toEqual(["Tansy's table line 3: sail-table-made-good"]);
  });

  it("refuses a first line that holds no ascending wind speeds", () => {
    expect(found("angle 6 10 10 8 x 200\n52 1 1 1 1 1 1\n120 1 1 1 1 1 1")).toEqual([
      "Tansy's table line 1 column 4: sail-table-wind",
      "Tansy's table line 1 column 5: sail-table-wind",
      "Tansy's table line 1 column 6: sail-table-wind",
      "Tansy's table line 1 column 7: sail-table-wind",
    ]);
    // A wind speed stuck to the word in the corner would be lost without this.
    expect(found("TWA 6, 8\n52, 5.3\n120, 6")).toEqual(["Tansy's table line 1 column 1: sail-table-layout"]);
    expect(found("Speeds of Tansy\nangle 6 10\n52 4 5")).toEqual(["Tansy's table line 1: sail-table-layout"]);
  });

  it("refuses what is no table at all", () => {
    expect(found("")).toEqual(["Tansy's table: sail-table-layout"]);
    expect(found("angle 6 10")).toEqual(["Tansy's table: sail-table-layout"]);
    expect(found("x".repeat(200_001))).toEqual(["Tansy's table: sail-table-layout"]);
    expect(found("angle 6 10\n52 4 5\n90 5 6")).toEqual(["Tansy's table: sail-table-too-small"]);
    expect(found("\u0000\u0001\u0002GARBAGE\u001b[31m\n\u0003\u0004")).not.toEqual([]);
    const parsed = parseSailTable("angle 6 10\n\u001b[31m 4 5\n120 5 6");
    expect(parsed.ok ? "" : parsed.issues[0].message).not.toContain("\u001b");
  });

  it("never throws, whatever it is given, and never lets a number through that can't be", () => {
    const token = fc.constantFrom(
      "6",
      "10",
      "52",
      "120",
      "-",
      "",
      "x",
      "1e9",
      "NaN",
      "Infinity",
      ",",
      ";",
      "\t",
      " ",
      "\n",
      "angle",
      "5,3",
      "-7",
      "Beat",
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(token, { maxLength: 30 }).map((list) => list.join(" ")),
        ),
        (text) => {
          const parsed = parseSailTable(text);
          if (!parsed.ok) expect(parsed.issues.length).toBeGreaterThan(0);
          else for (const point of parsed.value) expect(Number.isFinite(point.speedMps) && point.speedMps >= 0).toBe(true);
        },
      ),
    );
  });
});
