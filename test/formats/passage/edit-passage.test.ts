import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { editPassage } from "../../../src/formats/passage/index.ts";
import { EXAMPLE } from "./example.ts";
import { changed, good, REFERENCE_JSON } from "./fixture.ts";

function edited(text: string, path: string, newText: string) {
  const result = editPassage(good(text), path, newText);
  if (!result.ok) throw new Error(result.issues.map((one) => one.message).join("\n"));
  return result.value;
}

describe("changing one entry", () => {
  it("changes that entry and not a letter beside", () => {
    const after = edited(EXAMPLE, "boat.power.speed", "6.1 kn");
    expect(after.text).toBe(changed(EXAMPLE, "    speed: 5.6 kn ", "    speed: 6.1 kn "));
    expect(after.passage.boat.power?.speedMps).toBeCloseTo((6.1 * 1852) / 3600, 12);
    expect(edited(EXAMPLE, "water.sources[1].sketch.section[1].rate", "2.9 kn").text).toBe(
      changed(EXAMPLE, "rate: 3.2 kn", "rate: 2.9 kn"),
    );
    expect(edited(EXAMPLE, "route.pilotageIn.points[0]", "17 58.2S 149 00.0W").text).toBe(changed(EXAMPLE, "17 58.1S", "17 58.2S"));
  });

  it("and back gives the same file", () => {
    expect(edited(edited(EXAMPLE, "boat.draught", "1.8 m").text, "boat.draught", "1.7 m").text).toBe(EXAMPLE);
  });

  it("keeps Windows line ends", () => {
    const text = EXAMPLE.replaceAll("\n", "\r\n");
    expect(edited(text, "boat.draught", "1.8 m").text).toBe(changed(text, "draught: 1.7 m", "draught: 1.8 m"));
  });

  it("quotes what needs quotes, and no more", () => {
    expect(edited(EXAMPLE, "boat.name", "Tansy: the boat").text).toContain("  name: 'Tansy: the boat'\n");
    expect(edited(EXAMPLE, "boat.name", "# 7").text).toContain("  name: '# 7'\n");
    expect(edited(EXAMPLE, "boat.name", "O'Hara").text).toContain("  name: O'Hara\n");
    expect(edited(EXAMPLE, "route.to.position", "17 57.0S, 149 02.1W").text).toContain("position: '17 57.0S, 149 02.1W'}");
    expect(edited(EXAMPLE, "boat.name", "null").data.boat.name).toBe("null");
    const quoted = changed(EXAMPLE, "  name: Tansy", '  name: "Tansy"');
    expect(edited(quoted, "boat.name", "Yarrow").text).toContain('  name: "Yarrow"\n');
  });

  it("replaces a text of several lines whole", () => {
    const block = changed(EXAMPLE, "  name: Tansy\n", "  name: |\n    Tansy\n    of Pelu\n");
    expect(edited(block, "boat.name", "Yarrow").text).toBe(changed(EXAMPLE, "  name: Tansy\n", "  name: Yarrow\n"));
  });

  it("leaves JSON as JSON", () => {
    const after = edited(edited(REFERENCE_JSON, "boat.power.speed", "6 kn").text, "water.sources[0].uniform.set", "220");
    expect(after.text).toBe(changed(changed(REFERENCE_JSON, '"5.6 kn"', '"6 kn"'), "215", "220"));
    expect(JSON.parse(edited(REFERENCE_JSON, "water.sources[0].uniform.set", "SW").text)).toMatchObject({
      water: { sources: [{ uniform: { set: "SW" } }] },
    });
  });

  it("tells what the change would break, and gives no document then", () => {
    expect(editPassage(good(EXAMPLE), "boat.draught", "17 m")).toMatchObject({
      ok: false,
      issues: [{ path: "boat.draught", code: "boat-out-of-range" }],
    });
    expect(editPassage(good(EXAMPLE), "leave.until", "2027-04-01 0000")).toMatchObject({ ok: false, issues: [{ path: "leave.until" }] });
  });

  it("refuses a place with no single value", () => {
    for (const path of ["boat.beam", "boat", "water.sources[7].file", "boat..name", "[", "", "boat.__proto__", "boat.name.length"]) {
      expect(editPassage(good(EXAMPLE), path, "1 m")).toMatchObject({ ok: false, issues: [{ path, code: "no-such-entry" }] });
    }
  });

  it("reads back any printable name that is put in", () => {
    const document = good(EXAMPLE);
    fc.assert(
      fc.property(fc.string({ minLength: 1, maxLength: 30, unit: fc.constantFrom(..."abZ09 :#'\"\\{}[],&*!|>-?%@`~\n\t") }), (name) => {
        const result = editPassage(document, "boat.name", name);
        if (name.trim() === "") expect(result.ok).toBe(false);
        else if (result.ok) expect(result.value.data).toEqual({ ...document.data, boat: { ...document.data.boat, name } });
        else throw new Error(`${JSON.stringify(name)}: ${result.issues[0]?.message}`);
      }),
      { seed: 7, numRuns: 150 },
    );
  });
});
