import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { z } from "zod";
import { editPassage, passageJsonSchema, type Tree } from "../../../src/formats/passage/index.ts";
import { EXAMPLE } from "./example.ts";
import { good, REFERENCE_JSON, REFERENCE_TEXT, REFERENCE_YAML } from "./fixture.ts";

type Json = Readonly<Record<string, unknown>>;

/** Every part of a schema that stands at a key, by the key's path. */
function keysOf(schema: Json, at = ""): readonly (readonly [path: string, part: Json])[] {
  const inner = (schema["items"] ?? schema) as Json;
  return Object.entries((inner["properties"] ?? {}) as Record<string, Json>).flatMap(([key, part]) => {
    const path = at === "" ? key : `${at}.${key}`;
    return [[path, part] as const, ...keysOf(part, path)];
  });
}

const published: Json = JSON.parse(readFileSync(new URL("../../../docs/passage.schema.json", import.meta.url), "utf8"));
const keys = keysOf(published);

describe("the published schema", () => {
  it("is what the code gives (made by npm run docs)", () => {
    expect(published).toEqual(passageJsonSchema());
  });

  it("is of the 2020-12 draft, has a description at every key, and lets no unknown key in", () => {
    expect(published["$schema"]).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(keys.length).toBeGreaterThan(80);
    for (const [path, part] of keys) expect(part["description"], path).toMatch(/\.$/);
    const groups = [published, ...keys.map(([, part]) => (part["items"] ?? part) as Json)].filter(
      (part) => part["properties"] !== undefined,
    );
    for (const group of groups) expect(group["additionalProperties"]).toBe(false);
  });

  it("keeps none of our own marks", () => {
    expect(JSON.stringify(published)).not.toContain('"bare"');
  });

  // Read by zod, which knows neither dependentRequired nor the choices among required keys. Python's jsonschema 4.26
  // (Draft202012Validator) was asked once by hand, choices included, and agreed on every line of this test.
  const choices = ["dependentRequired", "oneOf", "minProperties"];
  const plain = JSON.parse(JSON.stringify(published), function (this: Json, key, value) {
    const choosesKeys = key === "anyOf" && JSON.stringify(value).includes('"required"');
    return choosesKeys || choices.includes(key) ? undefined : value;
  });
  const schema = z.fromJSONSchema(plain);

  it("accepts the examples as an editor reads them, with bare numbers and yes-and-no as such", () => {
    for (const text of [EXAMPLE, REFERENCE_YAML, REFERENCE_JSON]) expect(schema.safeParse(parse(text)).error).toBeUndefined();
  });

  it("refuses a wrong key, a missing key, a number without its unit, a wrong word", () => {
    const example = JSON.parse(REFERENCE_JSON);
    expect(schema.safeParse({ ...example, colour: "red" }).success).toBe(false);
    expect(schema.safeParse({ ...example, route: undefined }).success).toBe(false);
    expect(schema.safeParse({ ...example, boat: { ...example.boat, draught: 1.7 } }).success).toBe(false);
    expect(schema.safeParse({ ...example, boat: { ...example.boat, goes: "steam" } }).success).toBe(false);
    expect(schema.safeParse({ ...example, athwart: "passage/2" }).success).toBe(false);
  });
});

describe("the schema's own examples", () => {
  const document = good(REFERENCE_YAML);
  const byPath = new Map(keys);

  function scalars(tree: Tree, at: string): readonly string[] {
    if (typeof tree === "string") return [at];
    if (tree === null) return [];
    if (Array.isArray(tree)) return tree.flatMap((item, i) => scalars(item, `${at}[${i}]`));
    return Object.entries(tree).flatMap(([key, part]) => scalars(part, at === "" ? key : `${at}.${key}`));
  }

  it("can each be written at their key: what comes of it is understood there, though it may not fit its neighbours", () => {
    let tried = 0;
    const fits =
      /^(?:times-upside-down|periods-overlap|leave-too-long|section-|limit-|sail-table-|deviation-|boat-contradiction|area-|point-|place-|same-|gate-heights-)/;
    for (const path of scalars(document.data as Tree, "")) {
      const part = byPath.get(path.replace(/\[\d+\]/g, ""));
      const examples = (part?.["examples"] ?? (part?.["items"] as Json | undefined)?.["examples"] ?? []) as readonly string[];
      for (const example of examples) {
        const edited = editPassage(document, path, example);
        const wrong = edited.ok ? [] : edited.issues.filter((one) => !fits.test(one.code));
        expect(wrong, `${path}: ${example}`).toEqual([]);
        tried++;
      }
    }
    expect(tried).toBeGreaterThan(120);
  });
});

describe("the reference", () => {
  it("names every key, and its example uses every key but the alternatives", () => {
    for (const [path, part] of keys) {
      if (part["properties"] !== undefined && !path.includes(".")) {
        expect(REFERENCE_TEXT, path).toMatch(new RegExp(`^(?:### \`${path}\`|- \`${path}\\.)`, "m"));
        continue;
      }
      const key = path.split(".").at(-1) ?? "";
      expect(REFERENCE_TEXT, path).toMatch(new RegExp(`\`(?:[a-z]+\\.)?${key}\``, "i"));
      expect(REFERENCE_YAML, path).toMatch(new RegExp(`\\b${key}:`));
    }
  });
});
