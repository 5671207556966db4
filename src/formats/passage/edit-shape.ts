import { isMap, isScalar, isSeq, type Pair, parseDocument, type YAMLMap, type YAMLSeq } from "yaml";
import type { Step } from "./path.ts";

/** Where things stand in a passage's text, characters from its start. */
export interface EntryPlace {
  /** The mapping it stands in, and the entry itself. */
  readonly map: YAMLMap;
  readonly pair: Pair;
}

/** The root of a text that has been read as a typed tree already. */
export function rootOf(text: string): unknown {
  return parseDocument(text, { schema: "failsafe", prettyErrors: false, logLevel: "silent", stringKeys: true, uniqueKeys: false }).contents;
}

/** What stands at the steps; undefined where nothing does. */
export function nodeAt(root: unknown, steps: readonly Step[]): unknown {
  let node = root;
  for (const step of steps) {
    if (typeof step === "number") node = isSeq(node) ? node.items[step] : undefined;
    else node = isMap(node) ? node.items.find((pair) => keyOf(pair) === step)?.value : undefined;
    if (node === undefined || node === null) return undefined;
  }
  return node;
}

/** The entry of a key; null where there is none. */
export function entryAt(root: unknown, steps: readonly Step[]): EntryPlace | null {
  const key = steps.at(-1);
  const map = nodeAt(root, steps.slice(0, -1));
  if (!isMap(map)) return null;
  const pair = map.items.find((one) => keyOf(one) === key);
  return pair === undefined ? null : { map, pair };
}

export function asMap(node: unknown): YAMLMap | null {
  return isMap(node) ? node : null;
}

export function asList(node: unknown): YAMLSeq | null {
  return isSeq(node) ? node : null;
}

export function startOf(node: unknown): number {
  return rangeOf(node)[0];
}

/** Where a node's last letter ends, without the space and the comment after it. */
export function endOf(node: unknown): number {
  return rangeOf(node)[1];
}

/** Where an entry begins and ends. */
export function spanOf(pair: Pair): readonly [number, number] {
  const key = rangeOf(pair.key);
  const value: unknown = pair.value;
  return [key[0], value === null || value === undefined ? key[1] : Math.max(key[1], rangeOf(value)[1])];
}

function rangeOf(node: unknown): readonly [number, number] {
  if ((isMap(node) || isSeq(node) || isScalar(node)) && node.range) return [node.range[0], node.range[1]];
  throw new Error("a node of a passage's text without its place");
}

function keyOf(pair: Pair): string {
  return isScalar(pair.key) ? String(pair.key.value) : String(pair.key);
}

/** Where the line of a place begins. */
export function lineStart(text: string, at: number): number {
  return text.lastIndexOf("\n", at - 1) + 1;
}

/** Where the line after a place begins: after the last letter where there is none. */
export function nextLine(text: string, at: number): number {
  if (at > 0 && text[at - 1] === "\n") return at;
  const found = text.indexOf("\n", at);
  return found < 0 ? text.length : found + 1;
}
