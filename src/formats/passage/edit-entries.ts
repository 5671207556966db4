import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import { quoted } from "../../core/units/index.ts";
import { isJson, waysToWrite } from "./edit-passage.ts";
import { asList, nodeAt, rootOf } from "./edit-shape.ts";
import { withEntry, withItemFirst, withItemMovedFirst, withoutEntry } from "./edit-text.ts";
import { type Step, stepsOf } from "./path.ts";
import { type PassageDocument, readPassage } from "./read-passage.ts";
import { isList, isMapping, readTypedTree, type Tree } from "./typed-tree.ts";

/** One change: what is to stand at a key as issues name it (`limits.wind.never`); null takes the entry out. */
export interface PassageEdit {
  readonly path: string;
  readonly typed: string | null;
}

/**
 * Makes several changes to a passage file at once and no others: every other letter, comment and line break stays. An entry that isn't there
 * yet is set in at the end of its mapping; one taken out takes the mappings with it that it leaves empty. The passage is judged as a whole
 * after all of them. Issues: what can't be written or isn't there (`no-such-entry`), or whatever is wrong with the passage then.
 */
export function editEntries(document: PassageDocument, edits: readonly PassageEdit[]): Parsed<PassageDocument> {
  const { name } = document;
  let { text } = document;
  const issues: Issue[] = [];
  for (const edit of edits) {
    const changed = oneEdit(text, name, edit);
    if (changed.ok) text = changed.value;
    else issues.push(...changed.issues);
  }
  return issues.length > 0 ? bad(...issues) : readPassage(text, { name });
}

/** Names a file as the first source of water or weather; a source of that file alone that stands there already is moved to the front as it is. */
export function nameFirst(
  document: PassageDocument,
  list: "water" | "weather",
  key: "file" | "letter",
  file: string,
): Parsed<PassageDocument> {
  const { text, name } = document;
  const before = readTypedTree(text, name);
  if (!before.ok) return before;
  const json = isJson(text);
  const steps = [list, "sources"];
  const listed = treeAt(before.value.tree, steps);
  const items = isList(listed) ? listed : [];
  const place = items.findIndex((one) => isMapping(one) && one[key] === file);
  if (place === 0) return good(document);
  const item = place > 0 ? (items[place] as Tree) : { [key]: file };
  const goal = withValue(before.value.tree, steps, [item, ...items.filter((_, at) => at !== place)]);
  const root = rootOf(text);
  const node = asList(nodeAt(root, steps));
  for (const written of valuesOf(file, json)) {
    const entry = `${json ? JSON.stringify(key) : key}: ${written}`;
    const changed =
      node === null
        ? withEntry(text, root, steps, `[{${entry}}]`, json)
        : place > 0
          ? withItemMovedFirst(text, node, place)
          : withItemFirst(text, node, entry);
    if (changed !== null && readsAs(changed, name, goal)) return readPassage(changed, { name });
  }
  return bad(issue(`${list}.sources`, "no-such-entry", `${quoted(file.slice(0, 40))} can't be set in as the first source here`, BY_HAND));
}

const BY_HAND = "Change the passage's text itself.";

function oneEdit(text: string, name: string, { path, typed }: PassageEdit): Parsed<string> {
  const before = readTypedTree(text, name);
  if (!before.ok) return before;
  const { tree } = before.value;
  const steps = stepsOf(path);
  if (steps === null || steps.length === 0)
    return bad(issue(path.slice(0, 80), "no-such-entry", `\`${path.slice(0, 80)}\` is no path to an entry`));
  const root = rootOf(text);
  if (typed === null) {
    const without = withoutEntry(text, root, steps);
    if (without !== null && readsAs(without.text, name, withValue(tree, without.removed, undefined))) return good(without.text);
    return bad(issue(path, "no-such-entry", `there is no entry at \`${path}\` that can be taken out`));
  }
  const goal = withValue(tree, steps, typed);
  const place = before.value.scalarAt(steps);
  const json = isJson(text);
  const ways =
    place !== null
      ? waysToWrite(typed, place, json).flatMap((written) =>
          ["", " "].map((space) => text.slice(0, place.start) + (place.start === place.end ? space : "") + written + text.slice(place.end)),
        )
      : goal === undefined || treeAt(tree, steps) !== undefined
        ? []
        : valuesOf(typed, json).map((written) => withEntry(text, root, steps, written, json));
  for (const changed of ways) if (changed !== null && readsAs(changed, name, goal)) return good(changed);
  const message =
    goal === undefined || (place === null && treeAt(tree, steps) !== undefined)
      ? `there is no single value at \`${path}\``
      : `${quoted(typed.slice(0, 40))} can't be written at \`${path}\``;
  return bad(issue(path, "no-such-entry", message, "Write one line of printable text."));
}

function valuesOf(typed: string, json: boolean): readonly string[] {
  const double = JSON.stringify(typed);
  return json ? [double] : [typed, `'${typed.replaceAll("'", "''")}'`, double];
}

function readsAs(text: string, name: string, goal: Tree | undefined): boolean {
  const after = readTypedTree(text, name);
  return after.ok && goal !== undefined && same(after.value.tree, goal);
}

function treeAt(tree: Tree, steps: readonly Step[]): Tree | undefined {
  let here: Tree | undefined = tree;
  for (const step of steps) {
    if (typeof step === "number") here = isList(here) ? here[step] : undefined;
    else here = isMapping(here) && Object.hasOwn(here, step) ? here[step] : undefined;
  }
  return here;
}

/** The tree with a value at the steps, or without it; undefined where the steps lead through something that is no mapping. */
function withValue(tree: Tree | undefined, steps: readonly Step[], value: Tree | undefined): Tree | undefined {
  const [step, ...rest] = steps;
  if (step === undefined) return value;
  if (typeof step === "number") {
    if (!isList(tree) || tree[step] === undefined) return undefined;
    const inner = withValue(tree[step], rest, value);
    return inner === undefined ? undefined : tree.map((one, at) => (at === step ? inner : one));
  }
  if (tree !== undefined && tree !== null && !isMapping(tree)) return undefined;
  const keys = tree ?? {};
  if (rest.length === 0 && value === undefined) return Object.fromEntries(Object.entries(keys).filter(([key]) => key !== step));
  const inner = withValue(Object.hasOwn(keys, step) ? keys[step] : undefined, rest, value);
  // A key that may be `__proto__` is written as any other.
  return inner === undefined ? undefined : Object.fromEntries([...Object.entries(keys).filter(([key]) => key !== step), [step, inner]]);
}

/** The same keys and values, in whatever order the keys stand. */
function same(a: Tree | undefined, b: Tree | undefined): boolean {
  if (isList(a)) return isList(b) && a.length === b.length && a.every((item, at) => same(item, b[at]));
  if (!isMapping(a)) return a === b;
  if (!isMapping(b)) return false;
  const keys = Object.keys(a);
  return Object.keys(b).length === keys.length && keys.every((key) => Object.hasOwn(b, key) && same(a[key], b[key]));
}
