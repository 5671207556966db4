import { bad, issue, type Parsed } from "../../core/answers/index.ts";
import { pathText, type Step, stepsOf } from "./path.ts";
import { type PassageDocument, readPassage } from "./read-passage.ts";
import { isList, isMapping, readTypedTree, type ScalarPlace, type Tree } from "./typed-tree.ts";

/**
 * Changes one entry of a passage file and nothing else: every other letter, comment and line break stays. `path` is a key as issues
 * name it (`boat.draught`, `route.pilotageOut.points[0]`), `newText` what is to stand there (`1.8 m`), quoted here where the format
 * needs it. Issues: no entry at the path, or whatever is wrong with the passage after the change.
 */
export function editPassage(document: PassageDocument, path: string, newText: string): Parsed<PassageDocument> {
  const { text, name } = document;
  const before = readTypedTree(text, name);
  if (!before.ok) return before;
  const steps = stepsOf(path);
  const place = steps === null ? null : before.value.scalarAt(steps);
  if (steps === null || place === null) {
    return bad(issue(path, "no-such-entry", `there is no single value at \`${path}\` in ${name}`));
  }
  for (const written of waysToWrite(newText, place, isJson(text))) {
    const changed = text.slice(0, place.start) + written + text.slice(place.end);
    const after = readTypedTree(changed, name);
    if (after.ok && changesOnly(before.value.tree, after.value.tree, steps, newText)) return readPassage(changed, { name });
  }
  return bad(
    issue(path, "no-such-entry", `“${newText.slice(0, 40)}” can't be written at \`${path}\``, "Write one line of printable text."),
  );
}

/** The new text as it may stand in the file, the way the old one was written first. */
export function waysToWrite(newText: string, place: ScalarPlace, json: boolean): readonly string[] {
  const doubleQuoted = JSON.stringify(newText);
  if (json) {
    const bare = place.written === "plain" && (/^-?(?:0|[1-9]\d*)(?:\.\d+)?$/.test(newText) || newText === "true" || newText === "false");
    return bare ? [newText, doubleQuoted] : [doubleQuoted];
  }
  const lineBreak = place.written === "block" ? "\n" : "";
  const singleQuoted = `'${newText.replaceAll("'", "''")}'`;
  const plain = newText + lineBreak;
  if (place.written === "double-quoted") return [doubleQuoted];
  if (place.written === "single-quoted") return [singleQuoted, doubleQuoted];
  return [plain, singleQuoted + lineBreak, doubleQuoted + lineBreak];
}

export function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** The trees differ in the one entry at most, and that one reads as it should. */
function changesOnly(before: Tree, after: Tree, steps: readonly Step[], newText: string): boolean {
  const goal = pathText(steps);
  const same = (a: Tree | undefined, b: Tree | undefined, at: readonly Step[]): boolean => {
    if (pathText(at) === goal) return b === newText;
    if (isList(a)) return isList(b) && a.length === b.length && a.every((item, i) => same(item, b[i], [...at, i]));
    if (!isMapping(a)) return a === b;
    const keys = Object.keys(a);
    return isMapping(b) && Object.keys(b).length === keys.length && keys.every((key) => same(a[key], b[key], [...at, key]));
  };
  return same(before, after, []);
}
