import type { z } from "zod";
import type { Issue } from "../../core/answers/index.ts";
import { nearestWord } from "../../core/units/index.ts";
import { pathText, type Step } from "./path.ts";
import { type PassageData, passageSchema } from "./schema.ts";
import { descriptionAt, placesOf, shapeAt } from "./schema-lookup.ts";
import { isList, isMapping, issueAt, type Tree, type TypedTree } from "./typed-tree.ts";

/** A document of which any part may be missing; what is there has the right shape. */
export type Loose<T> = T extends string
  ? T
  : T extends readonly (infer Item)[]
    ? readonly (Loose<Item> | undefined)[]
    : { readonly [Key in keyof T]?: Loose<T[Key]> | undefined };

/** Words that people use for a key, and the key. American spelling, the trade's short forms. */
const OTHER_WORDS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    airdraft: "airDraught",
    departure: "leave",
    destination: "to",
    draft: "draught",
    end: "until",
    finish: "until",
    fuel: "usableFuel",
    loa: "lengthOverall",
    lwl: "waterlineLength",
    max: "never",
    start: "from",
    timezone: "zone",
    timezones: "zones",
    toleratedminutes: "tolerated",
  }),
);

/**
 * Holds a tree against the passage file's keys: unknown keys with the nearest right one, missing keys, wrong shapes and words, all at
 * once. `data` is what remains when the wrong parts are taken out, so that the quantities in the rest can be read all the same.
 */
export function checkStructure(typed: TypedTree, tree: Tree): { readonly data: Loose<PassageData>; readonly issues: readonly Issue[] } {
  const result = passageSchema.safeParse(tree);
  if (result.success) return { data: result.data, issues: [] };
  const wrong: (readonly Step[])[] = [];
  const issues: Issue[] = [];
  for (const fault of result.error.issues) {
    const steps = fault.path.filter((step) => typeof step !== "symbol");
    if (fault.code === "unrecognized_keys") {
      for (const key of fault.keys) {
        issues.push(unknownKey(typed, [...steps, key]));
        wrong.push([...steps, key]);
      }
    } else {
      issues.push(misshapen(typed, tree, steps, fault));
      wrong.push(steps);
    }
  }
  return { data: looseData(without(tree, [], new Set(wrong.map(pathText)))), issues };
}

/** What is left of a tree that zod has found fault with, once the faulty parts are out: right by zod's own word. */
function looseData(tree: Tree | undefined): Loose<PassageData> {
  return (isMapping(tree) ? tree : {}) as Loose<PassageData>;
}

function without(tree: Tree, steps: readonly Step[], wrong: ReadonlySet<string>): Tree | undefined {
  if (wrong.has(pathText(steps)) || tree === null) return undefined;
  if (typeof tree === "string") return tree;
  if (isList(tree)) return tree.map((item, place) => without(item, [...steps, place], wrong) ?? null);
  const kept: [string, Tree][] = [];
  for (const [key, value] of Object.entries(tree)) {
    const rest = without(value, [...steps, key], wrong);
    if (rest !== undefined) kept.push([key, rest]);
  }
  return Object.fromEntries(kept);
}

function unknownKey(typed: TypedTree, steps: readonly Step[]): Issue {
  const key = String(steps.at(-1));
  const shown = key.length > 60 ? `${key.slice(0, 59)}…` : key;
  const owner = steps.slice(0, -1);
  const keys = Object.keys(shapeAt(owner) ?? {});
  const where = owner.length === 0 ? "a passage file" : `\`${pathText(owner)}\``;
  if (/^[\d-]/.test(key)) {
    const whatToDo = "Put quotes around a value that has a comma in it, or leave the comma out.";
    return issueAt(typed, steps, "unknown-key", `\`${shown}\` stands where a key belongs; a comma inside { } begins a new key`, whatToDo);
  }
  const other = OTHER_WORDS.get(key.toLowerCase().replace(/[-_ ]/g, ""));
  const near = other !== undefined && keys.includes(other) ? other : nearestWord(key.replace(/[-_ ]/g, ""), keys);
  if (near !== null) {
    return issueAt(
      typed,
      steps,
      "unknown-key",
      `${where} has no key \`${shown}\`; did you mean \`${near}\`?`,
      `Write \`${near}\`, or strike the key out.`,
    );
  }
  const elsewhere = placesOf(key);
  const hint = elsewhere.length === 0 ? `it takes ${keys.join(", ")}` : `that key belongs at ${elsewhere.join(" or ")}`;
  return issueAt(typed, steps, "unknown-key", `${where} has no key \`${shown}\`; ${hint}`);
}

function misshapen(typed: TypedTree, tree: Tree, steps: readonly Step[], fault: z.core.$ZodIssue): Issue {
  const found = partAt(tree, steps);
  const key = pathText(steps);
  const about = descriptionAt(steps);
  if (found === undefined) {
    const owner = pathText(steps.slice(0, -1));
    const where = owner === "" ? "the passage file" : `\`${owner}\``;
    return issueAt(typed, steps, "missing-key", `${where} lacks the key \`${String(steps.at(-1))}\`${about === "" ? "" : `: ${about}`}`);
  }
  if (found === null) return issueAt(typed, steps, "empty-value", `nothing stands after \`${key}\`${about === "" ? "" : `: ${about}`}`);
  if (fault.code === "invalid_value") {
    const words = fault.values.map(String);
    const near = typeof found === "string" ? nearestWord(found, words) : null;
    const hint = near === null ? "" : `; did you mean \`${near}\`?`;
    return issueAt(typed, steps, "unknown-word", `\`${key}\` is one of ${words.join(", ")}, not “${String(found)}”${hint}`);
  }
  if (fault.code === "too_small") {
    return issueAt(
      typed,
      steps,
      "list-too-short",
      `\`${key}\` needs at least ${String(fault.minimum)} ${fault.minimum === 1 ? "entry" : "entries"}`,
    );
  }
  const wanted = fault.code === "invalid_type" ? SHAPES[fault.expected] : undefined;
  return issueAt(typed, steps, "wrong-shape", `\`${key}\` must be ${wanted ?? "something else"}, not ${shapeOf(found)}`);
}

const SHAPES: Readonly<Record<string, string>> = {
  string: "one value",
  object: "a group of keys",
  array: "a list (lines that begin with a dash, or [ ])",
};

function shapeOf(tree: Tree): string {
  if (isList(tree)) return "a list";
  return isMapping(tree) ? "a group of keys" : `the value “${String(tree).slice(0, 40)}”`;
}

function partAt(tree: Tree, steps: readonly Step[]): Tree | undefined {
  let part: Tree | undefined = tree;
  for (const step of steps) {
    if (isList(part)) part = part[Number(step)];
    else if (isMapping(part)) part = Object.hasOwn(part, step) ? part[String(step)] : undefined;
    else return undefined;
  }
  return part;
}
