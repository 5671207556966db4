import { CST, Lexer } from "yaml";
import { type Issue, issue } from "../../core/answers/index.ts";

/** A passage file is some kilobytes; anything beyond this is not one. Ours. */
export const MAX_PASSAGE_CHARACTERS = 100_000;
/** How deep braces and brackets, or dashes on one line, may stand inside each other; the format itself needs seven. Ours. */
export const MAX_PASSAGE_DEPTH = 24;
/** How far a line may be indented. Ours. */
const MAX_INDENT = 200;

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
const UNPRINTABLE = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\ufffe\uffff]/;

const UNUSED_FEATURES: ReadonlyMap<string, string> = new Map([
  ["anchor", "an anchor (&)"],
  ["alias", "an alias (*)"],
  ["tag", "a tag (!)"],
  ["directive-line", "a directive (%)"],
]);

/**
 * Looks a text over before it is parsed as YAML: its size, unprintable characters, nesting, and the features a passage file does
 * without (anchors, aliases, tags, directives). Runs in one pass and in bounded memory whatever the text. `lineAt` turns an offset
 * into a line number. Returns what is wrong, at most the first of each kind; nothing wrong is an empty list.
 */
export function guardYaml(text: string, name: string, lineAt: (offset: number) => number): readonly Issue[] {
  if (text.length > MAX_PASSAGE_CHARACTERS) {
    return [
      issue(name, "passage-too-large", `this file has ${text.length} characters; a passage file has at most ${MAX_PASSAGE_CHARACTERS}`),
    ];
  }
  const unprintable = UNPRINTABLE.exec(text);
  if (unprintable !== null) {
    const code = unprintable[0].charCodeAt(0).toString(16).padStart(4, "0").toUpperCase();
    return [
      issue(name, "passage-syntax", `line ${lineAt(unprintable.index)}: the character U+${code} can't be printed; this is not a text file`),
    ];
  }
  return guardTokens(text, name, lineAt);
}

function guardTokens(text: string, name: string, lineAt: (offset: number) => number): readonly Issue[] {
  const issues = new Map<string, Issue>();
  let offset = 0;
  let flowDepth = 0;
  let onLine = 0;
  let lineStarts = true;
  let isScalarText = false;
  for (const token of new Lexer().lex(text)) {
    const type: string | null = isScalarText ? "scalar text" : CST.tokenType(token);
    isScalarText = type === "scalar";
    if (type === "scalar" || type === "doc-mode" || type === "flow-error-end") continue;
    if (type === "flow-map-start" || type === "flow-seq-start") flowDepth++;
    if (type === "flow-map-end" || type === "flow-seq-end") flowDepth--;
    if (flowDepth < 0) return [issue(name, "passage-syntax", `line ${lineAt(offset)}: this ${token} closes nothing`)];
    if (type === "seq-item-ind" || type === "explicit-key-ind") onLine++;
    if (type === "newline") onLine = 0;
    const tooDeep =
      flowDepth > MAX_PASSAGE_DEPTH || onLine > MAX_PASSAGE_DEPTH || (lineStarts && type === "space" && token.length > MAX_INDENT);
    if (tooDeep) return [issue(name, "passage-too-large", `line ${lineAt(offset)}: the entries are nested too deeply for a passage file`)];
    const feature = type === null ? undefined : UNUSED_FEATURES.get(type);
    if (feature !== undefined && !issues.has(feature)) {
      issues.set(
        feature,
        issue(name, "passage-yaml-feature", `line ${lineAt(offset)}: ${JSON.stringify(token.trim())} is read as ${feature}`),
      );
    }
    lineStarts = type === "newline";
    offset += token.length;
  }
  return [...issues.values()];
}
