import { isMap, isScalar, isSeq, LineCounter, type Node, type Pair, parseAllDocuments, type YAMLError } from "yaml";
import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import { pathText, type Step } from "./path.ts";
import { guardYaml } from "./yaml-guard.ts";

/** A document with every scalar as the text that was typed; null where a key has nothing after it. */
export type Tree = string | null | readonly Tree[] | Keys;

/** Keys and what stands at them. */
export interface Keys {
  readonly [key: string]: Tree;
}

export function isList(tree: Tree | undefined): tree is readonly Tree[] {
  return Array.isArray(tree);
}

export function isMapping(tree: Tree | undefined): tree is Keys {
  return typeof tree === "object" && tree !== null && !isList(tree);
}

/** A scalar's place in the text, characters from the start, and how it was written. */
export interface ScalarPlace {
  readonly start: number;
  readonly end: number;
  readonly written: "plain" | "single-quoted" | "double-quoted" | "block";
}

export interface TypedTree {
  readonly tree: Keys;
  /** Keys that stand twice in one mapping; the tree holds the last of each. */
  readonly duplicates: readonly Issue[];
  /** The line, from 1, of what stands at the steps; of the nearest thing above it where nothing stands there. */
  lineOf(steps: readonly Step[]): number;
  /** The scalar at the steps; null where there is none. */
  scalarAt(steps: readonly Step[]): ScalarPlace | null;
}

/** How many faults of form are listed; after some, the rest are their echoes. Ours. */
const MAX_SYNTAX_ISSUES = 20;

const BEGIN = "Begin it with the line `athwart: passage/1`.";
const PLAIN_NULL = /^(?:~|null|Null|NULL)?$/;

/** What the parser's codes mean to someone who isn't a programmer; its own words where there is nothing better. */
const SYNTAX: Readonly<Record<string, string>> = {
  BAD_DQ_ESCAPE: "a backslash in double quotes starts a code, and this one is none; write \\\\ for a backslash, or use single quotes",
  BAD_INDENT: "this line is not indented as its neighbours are, or a bracket, brace or quote above is not closed",
  BAD_SCALAR_START: "this value starts with a sign that needs quotes around the value",
  BLOCK_AS_IMPLICIT_KEY: "there is a second colon and space on this line; put quotes around the value",
  KEY_OVER_1024_CHARS: "this key is far too long; is a quote or a line break missing?",
  MULTILINE_IMPLICIT_KEY: "this line is indented too far, or a colon is missing on the line above it",
  NON_STRING_KEY: "a key must be a plain word",
  TAB_AS_INDENT: "this line is indented with a tab; use spaces",
};

/** The texts that were read last: an edit reads what it starts from and what it makes several times over. */
const MOST_REMEMBERED = 4;
const remembered = new Map<string, TypedTree>();

/**
 * Reads YAML 1.2 or JSON with nothing interpreted: `0600`, `12:30`, `no` and `2027-04-08` are the texts that were typed. Refuses what
 * a passage file does without (anchors, aliases, tags, several documents) and lists faults of form, each with its line.
 */
export function readTypedTree(text: string, name: string): Parsed<TypedTree> {
  const known = remembered.get(text);
  if (known !== undefined) return good(known);
  const read = readAnew(text, name);
  if (read.ok) {
    remembered.set(text, read.value);
    for (const oldest of [...remembered.keys()].slice(0, -MOST_REMEMBERED)) remembered.delete(oldest);
  }
  return read;
}

function readAnew(text: string, name: string): Parsed<TypedTree> {
  const counter = new LineCounter();
  counter.lineStarts = lineStartsOf(text);
  const lineAt = (offset: number): number => Math.max(1, counter.linePos(offset).line);
  const guarded = guardYaml(text, name, lineAt);
  if (guarded.length > 0) return bad(...guarded);
  const documents = parseAllDocuments(text, {
    schema: "failsafe",
    prettyErrors: false,
    logLevel: "silent",
    stringKeys: true,
    uniqueKeys: false,
  });
  const [first, second] = "empty" in documents ? [] : documents;
  if (first === undefined || first.contents === null) {
    return bad(issue(name, "not-a-passage", "line 1: this file is empty", BEGIN));
  }
  const issues = syntaxIssues(first.errors, name, lineAt);
  if (issues.length === 0 && second !== undefined) {
    const line = lineAt(second.range?.[0] ?? 0);
    issues.push(issue(name, "passage-yaml-feature", `line ${line}: a second document starts here (after ---)`));
  }
  if (issues.length > 0) return bad(...issues);
  const root: Node = first.contents;
  const tree = treeOf(root);
  if (!isMapping(tree)) return bad(issue(name, "not-a-passage", "line 1: this file is not made of keys and values", BEGIN));
  const places = placesIn(root);
  return good({
    tree,
    duplicates: duplicatesIn(root, [], lineAt),
    lineOf: (steps) => lineAt(offsetAt(places, steps)),
    scalarAt: (steps) => places.scalars.get(pathText(steps)) ?? null,
  });
}

function lineStartsOf(text: string): number[] {
  const starts = [0];
  for (let at = text.indexOf("\n"); at !== -1; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return starts;
}

function syntaxIssues(errors: readonly YAMLError[], name: string, lineAt: (offset: number) => number): Issue[] {
  const issues: Issue[] = [];
  const lines = new Set<number>();
  const runOn = new Set(errors.filter((error) => error.code === "MULTILINE_IMPLICIT_KEY").map((error) => error.pos[0]));
  for (const error of errors) {
    // A line that is indented too far makes two faults of one: the value above runs on, and then has a colon in it.
    if (error.code === "BLOCK_AS_IMPLICIT_KEY" && runOn.has(error.pos[0])) continue;
    const line = lineAt(error.code === "MULTILINE_IMPLICIT_KEY" ? error.pos[1] - 1 : error.pos[0]);
    if (lines.has(line)) continue;
    lines.add(line);
    issues.push(issue(name, "passage-syntax", `line ${line}: ${SYNTAX[error.code] ?? lowerFirst(error.message)}`));
    if (issues.length === MAX_SYNTAX_ISSUES) break;
  }
  return issues;
}

function lowerFirst(message: string): string {
  return message.charAt(0).toLowerCase() + message.slice(1);
}

function treeOf(node: unknown): Tree {
  if (isMap(node)) return Object.fromEntries(node.items.map((pair) => [keyOf(pair), treeOf(pair.value)]));
  if (isSeq(node)) return node.items.map(treeOf);
  if (!isScalar(node)) return null;
  const text = String(node.value);
  return node.type === "PLAIN" && PLAIN_NULL.test(text) ? null : text;
}

function duplicatesIn(node: unknown, steps: readonly Step[], lineAt: (offset: number) => number): readonly Issue[] {
  if (isSeq(node)) return node.items.flatMap((item, place) => duplicatesIn(item, [...steps, place], lineAt));
  if (!isMap(node)) return [];
  const seen = new Map<string, number>();
  return node.items.flatMap((pair) => {
    const key = keyOf(pair);
    const line = lineAt(isScalar(pair.key) ? (pair.key.range?.[0] ?? 0) : 0);
    const before = seen.get(key);
    seen.set(key, before ?? line);
    const here = [...steps, key];
    const deeper = duplicatesIn(pair.value, here, lineAt);
    if (before === undefined) return deeper;
    return [
      issue(pathText(here), "duplicate-key", `line ${line}: the key \`${key}\` stands here for the second time, first on line ${before}`),
      ...deeper,
    ];
  });
}

function keyOf(pair: Pair): string {
  return isScalar(pair.key) ? String(pair.key.value) : String(pair.key);
}

/** Where everything stands: by its path the offset of its key, or of the item of a list; and the scalars. */
interface Places {
  readonly offsets: ReadonlyMap<string, number>;
  readonly scalars: ReadonlyMap<string, ScalarPlace>;
}

function placesIn(root: Node): Places {
  const offsets = new Map<string, number>([["", root.range?.[0] ?? 0]]);
  const scalars = new Map<string, ScalarPlace>();
  const visit = (node: unknown, steps: readonly Step[]): void => {
    if (isScalar(node) && node.range) {
      const written = WRITTEN[node.type ?? "PLAIN"] ?? "plain";
      scalars.set(pathText(steps), { start: node.range[0], end: node.range[1], written });
    } else if (isMap(node)) {
      for (const pair of node.items) {
        const here = [...steps, keyOf(pair)];
        if (isScalar(pair.key) && pair.key.range) offsets.set(pathText(here), pair.key.range[0]);
        visit(pair.value, here);
      }
    } else if (isSeq(node)) {
      node.items.forEach((item, place) => {
        const here = [...steps, place];
        if ((isMap(item) || isSeq(item) || isScalar(item)) && item.range) offsets.set(pathText(here), item.range[0]);
        visit(item, here);
      });
    }
  };
  visit(root, []);
  return { offsets, scalars };
}

function offsetAt({ offsets }: Places, steps: readonly Step[]): number {
  for (let depth = steps.length; depth >= 0; depth--) {
    const offset = offsets.get(pathText(steps.slice(0, depth)));
    if (offset !== undefined) return offset;
  }
  return 0;
}

const WRITTEN: Readonly<Record<string, ScalarPlace["written"]>> = {
  PLAIN: "plain",
  QUOTE_SINGLE: "single-quoted",
  QUOTE_DOUBLE: "double-quoted",
  BLOCK_FOLDED: "block",
  BLOCK_LITERAL: "block",
};

/** An issue at a key, its message opening with the line. */
export function issueAt(typed: TypedTree, steps: readonly Step[], code: Issue["code"], message: string, whatToDo?: string): Issue {
  const text = `line ${typed.lineOf(steps)}: ${message}`;
  return whatToDo === undefined ? issue(pathText(steps), code, text) : issue(pathText(steps), code, text, whatToDo);
}
