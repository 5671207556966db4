import type { Pair, YAMLMap } from "yaml";
import { asMap, endOf, entryAt, lineStart, nextLine, nodeAt, spanOf, startOf } from "./edit-shape.ts";
import type { Step } from "./path.ts";

/** Keys that need no quotes in YAML. */
const PLAIN_KEY = /^[A-Za-z_][A-Za-z0-9_-]*$/;

/**
 * The text with an entry set in where none stands yet: what of its path is missing is made, on one line in braces. Null where the path leads
 * through something that is no mapping. `written`: the value as it shall stand.
 */
export function withEntry(text: string, root: unknown, steps: readonly Step[], written: string, json: boolean): string | null {
  let depth = steps.length - 1;
  while (depth > 0 && nodeAt(root, steps.slice(0, depth)) === undefined) depth--;
  const map = asMap(nodeAt(root, steps.slice(0, depth)));
  const missing = steps.slice(depth);
  if (map === null || missing.some((step) => typeof step === "number")) return null;
  const [first = "", ...inner] = missing.map((step) => keyText(String(step), json));
  const value = inner.reduceRight((whole, key) => `{${key}: ${whole}}`, written);
  const entry = `${first}: ${value}`;
  return map.flow ? inBraces(text, map, entry) : onOwnLine(text, map, entry);
}

function inBraces(text: string, map: YAMLMap, entry: string): string {
  const last = map.items.at(-1);
  const at = last === undefined ? startOf(map) + 1 : spanOf(last as Pair)[1];
  return `${text.slice(0, at)}${last === undefined ? "" : ", "}${entry}${text.slice(at)}`;
}

function onOwnLine(text: string, map: YAMLMap, entry: string): string | null {
  const [first, last] = [map.items[0], map.items.at(-1)];
  if (first === undefined || last === undefined) return null;
  const start = spanOf(first as Pair)[0];
  const indent = " ".repeat(start - lineStart(text, start));
  const at = nextLine(text, spanOf(last as Pair)[1]);
  const broken = at > 0 && text[at - 1] !== "\n" ? "\n" : "";
  return `${text.slice(0, at)}${broken}${indent}${entry}\n${text.slice(at)}`;
}

/**
 * The text without an entry, and without the mappings that would be left empty. Null where there is none, where nothing would be left, or
 * where it stands so that it can't be cut out.
 */
export function withoutEntry(text: string, root: unknown, steps: readonly Step[]): { text: string; removed: readonly Step[] } | null {
  const found = entryAt(root, steps);
  if (found === null || steps.length === 0) return null;
  if (found.map.items.length === 1) return steps.length === 1 ? null : withoutEntry(text, root, steps.slice(0, -1));
  const { map, pair } = found;
  const [start, end] = spanOf(pair);
  const place = map.items.indexOf(pair);
  if (!map.flow) {
    const from = lineStart(text, start);
    if (text.slice(from, start).trim() !== "") return null;
    return { text: text.slice(0, from) + text.slice(nextLine(text, end)), removed: steps };
  }
  const [before, after] = [map.items[place - 1], map.items[place + 1]];
  if (after !== undefined) return { text: text.slice(0, start) + text.slice(spanOf(after as Pair)[0]), removed: steps };
  if (before === undefined) return null;
  return { text: text.slice(0, spanOf(before as Pair)[1]) + text.slice(end), removed: steps };
}

function keyText(key: string, json: boolean): string {
  return json || !PLAIN_KEY.test(key) ? JSON.stringify(key) : key;
}

/** The text with an item set before the first of a list; null where the list is none or can't be reached into. */
export function withItemFirst(
  text: string,
  list: { readonly flow?: boolean; readonly items: readonly unknown[] },
  item: string,
): string | null {
  const [first] = list.items;
  if (first === undefined) return null;
  const start = startOf(first);
  if (list.flow) return `${text.slice(0, start)}{${item}}, ${text.slice(start)}`;
  const from = lineStart(text, start);
  const dash = /^( *)- +$/.exec(text.slice(from, start));
  return dash === null ? null : `${text.slice(0, from)}${dash[1]}- ${item}\n${text.slice(from)}`;
}

/** The text with one item of a list moved before the first, as it is written; null where it can't be cut out. */
export function withItemMovedFirst(
  text: string,
  list: { readonly flow?: boolean; readonly items: readonly unknown[] },
  place: number,
): string | null {
  const [first, item, after] = [list.items[0], list.items[place], list.items[place + 1]];
  if (first === undefined || item === undefined || place === 0) return null;
  const head = startOf(first);
  if (list.flow) {
    const written = text.slice(startOf(item), endOf(item));
    const without = text.slice(head, endOf(list.items[place - 1])) + text.slice(endOf(item));
    return `${text.slice(0, head)}${written}, ${without}`;
  }
  const from = lineStart(text, startOf(item));
  const until = after === undefined ? nextLine(text, endOf(item)) : lineStart(text, startOf(after));
  const top = lineStart(text, head);
  if (![head, startOf(item)].every((at) => /^ *- +$/.test(text.slice(lineStart(text, at), at)))) return null;
  const moved = text.slice(from, until);
  return `${text.slice(0, top)}${moved}${moved.endsWith("\n") ? "" : "\n"}${text.slice(top, from)}${text.slice(until)}`;
}
