import { describe, expect, it } from "vitest";
import { MAX_PASSAGE_CHARACTERS } from "../../../src/formats/passage/index.ts";
import { EXAMPLE } from "./example.ts";
import { changed, issuesOf, lineOf } from "./fixture.ts";

const found = (text: string) => issuesOf(text).map((one) => [one.path, one.code]);

describe("faults of form", () => {
  const cases: readonly (readonly [why: string, from: string, to: string])[] = [
    ["a second colon", "  draught: 1.7 m", "  draught: loaded: 1.7 m"],
    ["an open bracket", "points: [17 31.0S 149 51.0W]", "points: [17 31.0S 149 51.0W"],
    ["an open quote", "  name: Tansy", '  name: "Tansy'],
    ["a tab", "  draught: 1.7 m", "\tdraught: 1.7 m"],
    ["a line out of step", "  draught: 1.7 m", "   draught: 1.7 m"],
    ["a reserved sign", "  name: Tansy", "  name: @Tansy"],
    ["a bracket that closes nothing", "  name: Tansy", "  name: [Tansy]]"],
    ["a key that is a list", "  name: Tansy", "  ? [name]\n  : Tansy"],
  ];
  for (const [why, from, to] of cases) {
    it(`${why}: one fault with its line, under the file's name`, () => {
      const text = changed(EXAMPLE, from, to);
      const issues = issuesOf(text);
      expect(issues.length).toBeGreaterThan(0);
      for (const one of issues) expect([one.path, one.code]).toEqual(["passage.yaml", "passage-syntax"]);
      const line = Number(/^line (\d+): /.exec(issues[0]?.message ?? "")?.[1]);
      expect(line).toBeGreaterThanOrEqual(lineOf(text, to.trimStart()));
    });
  }

  it("a line indented too far is named itself, not the one above", () => {
    const issues = issuesOf(changed(EXAMPLE, "  draught: 1.7 m", "    draught: 1.7 m"));
    expect(issues.map((one) => one.message)).toEqual([
      `line ${lineOf(EXAMPLE, "  draught: 1.7 m")}: this line is indented too far, or a colon is missing on the line above it`,
    ]);
  });

  it("a key that stands twice", () => {
    const text = changed(EXAMPLE, "  draught: 1.7 m", "  draught: 1.7 m\n  draught: 1.8 m");
    const first = lineOf(text, "draught: 1.7 m");
    expect(issuesOf(text)).toMatchObject([{ path: "boat.draught", code: "duplicate-key" }]);
    expect(issuesOf(text)[0]?.message).toBe(
      `line ${first + 1}: the key \`draught\` stands here for the second time, first on line ${first}`,
    );
  });

  it("an empty file, a bare word, a list", () => {
    for (const text of ["", "\n\n", "# only a comment\n", "null", "Tansy", "- a\n- b\n"]) {
      expect(found(text), JSON.stringify(text)).toEqual([["passage.yaml", "not-a-passage"]]);
    }
  });

  it("features a passage file does without", () => {
    const cases: readonly (readonly [from: string, to: string])[] = [
      ["  name: Tansy", "  name: &boat Tansy"],
      ["  name: Tansy", "  name: *Tansy*"],
      ["  draught: 1.7 m", "  draught: !!float 1.7"],
      ["athwart: passage/1", "%YAML 1.1\n---\nathwart: passage/1"],
    ];
    for (const [from, to] of cases) expect(found(changed(EXAMPLE, from, to))).toEqual([["passage.yaml", "passage-yaml-feature"]]);
    expect(found(`${EXAMPLE}\n---\n${EXAMPLE}`)).toEqual([["passage.yaml", "passage-yaml-feature"]]);
    expect(found(`---\n${EXAMPLE}`)).toEqual([]);
  });

  it("no merge key: it is an unknown key", () => {
    expect(found(changed(EXAMPLE, "  draught: 1.7 m", "  <<: {draught: 1.7 m}"))).toEqual([['boat["<<"]', "unknown-key"]]);
  });
});

describe("a hostile text", () => {
  const half = MAX_PASSAGE_CHARACTERS / 2;
  const bombs: readonly (readonly [string, string, string])[] = [
    [
      "aliases of aliases",
      `a: &a [x, x]\n${Array.from({ length: 30 }, (_, i) => `b${i}: &b${i} [*a, *a, *a]`).join("\n")}`,
      "passage-yaml-feature",
    ],
    ["brackets without end", "[".repeat(half), "passage-too-large"],
    ["braces without end", "{a: ".repeat(half / 4), "passage-too-large"],
    ["closing brackets", "]".repeat(half), "passage-syntax"],
    ["dashes on one line", "- ".repeat(half / 2), "passage-too-large"],
    ["question marks on one line", "? ".repeat(half / 2), "passage-too-large"],
    ["ever deeper lines", Array.from({ length: 400 }, (_, i) => `${" ".repeat(i)}a:`).join("\n"), "passage-too-large"],
    ["quotes", '"'.repeat(half), "passage-syntax"],
    ["anchors", "&a ".repeat(half / 3), "passage-yaml-feature"],
    ["too long", `# ${"x".repeat(MAX_PASSAGE_CHARACTERS)}`, "passage-too-large"],
    ["a binary file", "GRIB\u0000\u0001\u0002", "passage-syntax"],
    ["unknown keys", `limits:\n${Array.from({ length: 3000 }, (_, i) => `  k${i}: 1`).join("\n")}`, "not-a-passage"],
  ];
  for (const [why, text, code] of bombs) {
    it(`${why} is refused, and does not hang`, { timeout: 30_000 }, () => {
      expect(issuesOf(text)[0]?.code).toBe(code);
    });
  }
});
