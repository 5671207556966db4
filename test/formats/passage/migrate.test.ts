import { describe, expect, it } from "vitest";
import { type Migration, migratePassage, PASSAGE_VERSION, passageMigrations, readTypedTree } from "../../../src/formats/passage/index.ts";
import { good, PASSAGE_1 } from "./fixture.ts";

function typed(text: string) {
  const read = readTypedTree(text, "passage.yaml");
  if (!read.ok) throw new Error("no tree");
  return read.value;
}

/** Renames a key at the top, as a new version might. */
const rename =
  (from: string, to: string): Migration =>
  (document) =>
    Object.fromEntries(Object.entries(document).map(([key, value]) => [key === from ? to : key, value]));

const steps = new Map([
  [1, rename("name", "title")],
  [2, rename("title", "heading")],
]);

describe("versions", () => {
  it("go up step by step, typed values untouched", () => {
    const first = migratePassage(typed("athwart: passage/1\nname: 0600\nboat: {}\n"), steps, 3);
    expect(first).toEqual({ ok: true, value: { athwart: "passage/3", heading: "0600", boat: {} } });
    const second = migratePassage(typed("athwart: passage/2\ntitle: 0600\nboat: {}\n"), steps, 3);
    expect(second).toEqual(first);
  });

  it("do not change the tree they start from", () => {
    const from = typed("athwart: passage/1\nname: x\nboat: {}\n");
    migratePassage(from, steps, 3);
    expect(from.tree).toEqual({ athwart: "passage/1", name: "x", boat: {} });
  });

  it("a missing step is our own bug", () => {
    expect(() => migratePassage(typed("athwart: passage/1\nboat: {}\n"), new Map(), 2)).toThrow("version 1 to 2");
  });

  it("a newer one is refused with both versions named", () => {
    const refused = migratePassage(typed("athwart: passage/4\nboat: {}\n"), steps, 3);
    expect(refused).toMatchObject({ ok: false, issues: [{ path: "athwart", code: "passage-too-new" }] });
    expect(refused.ok ? "" : refused.issues[0]?.message).toBe("line 1: this file is of version 4; this program reads up to version 3");
  });

  it("every version before this one has its step, and the kept file of each is read", () => {
    expect([...passageMigrations.keys()]).toEqual(Array.from({ length: PASSAGE_VERSION - 1 }, (_, i) => i + 1));
    expect(good(PASSAGE_1).passage.to.name).toBe("the fairway buoy off Port Ansa");
  });
});
