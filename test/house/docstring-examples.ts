import { type ParseResult, parseSync } from "oxc-parser";

/** The code under one `@example` of a docstring. */
export interface DocstringExample {
  /** The line of the `@example` in its file. */
  readonly line: number;
  readonly code: string;
}

/** Every `@example` in the doc comments of a file: what follows it until the next tag, without asterisks and fences. */
export function examplesIn(path: string, text: string): DocstringExample[] {
  const examples: DocstringExample[] = [];
  for (const comment of parseSync(path, text).comments) {
    if (comment.type !== "Block" || !comment.value.startsWith("*")) continue;
    const firstLine = text.slice(0, comment.start).split("\n").length;
    const lines = comment.value
      .slice(1)
      .split("\n")
      .map((line) => line.replace(/^\s*\* ?/, ""));
    for (const [at, line] of lines.entries()) {
      if (!/^\s*@example\b/.test(line)) continue;
      const after = lines.slice(at + 1);
      const end = after.findIndex((one) => /^\s*@\w/.test(one));
      const body = (end < 0 ? after : after.slice(0, end)).filter((one) => !/^\s*```/.test(one));
      examples.push({ line: firstLine + at, code: body.join("\n").trim() });
    }
  }
  return examples;
}

/** What an example that was run came to: how many of its lines were held against their `// =>`, and those that were wrong. */
export interface ExampleOutcome {
  readonly checked: number;
  readonly wrong: readonly string[];
}

/**
 * Runs an example with the given names in scope. A statement that ends in `// => value` is held against the value: a number
 * written with decimals is right when the result rounds to it, everything else must be equal. `// throws words` wants an Error
 * with these words.
 */
export async function runExample(code: string, scope: Readonly<Record<string, unknown>>): Promise<ExampleOutcome> {
  const { program, comments, errors } = parseSync("example.ts", code);
  if (errors.length > 0) return { checked: 0, wrong: errors.map((error) => `not readable: ${error.message}`) };
  const wrong: string[] = [];
  let checked = 0;
  const parts: string[] = [];
  for (const statement of program.body) {
    const written = code.slice(statement.start, statement.end);
    const note = comments.find(
      (one) => one.type === "Line" && one.start >= statement.end && !code.slice(statement.end, one.start).includes("\n"),
    );
    const claim = /^\s*(=>|throws)\s*(.*)$/s.exec(note?.value ?? "");
    if (claim === null) {
      parts.push(written);
      continue;
    }
    checked++;
    const [, kind, wanted = ""] = claim;
    const quoted = JSON.stringify(written);
    if (kind === "throws") {
      parts.push(`await __throws(async () => { ${written} }, ${JSON.stringify(wanted)}, ${quoted});`);
    } else if (statement.type === "ExpressionStatement") {
      const { start, end } = statement.expression;
      parts.push(`__holds(await (${code.slice(start, end)}), ${JSON.stringify(wanted)}, ${quoted});`);
    } else if (statement.type === "VariableDeclaration" && statement.declarations[0]?.id.type === "Identifier") {
      parts.push(`${written}\n__holds(${statement.declarations[0].id.name}, ${JSON.stringify(wanted)}, ${quoted});`);
    } else {
      wrong.push(`${written}: only an expression or a constant can be held against a value`);
    }
  }
  const holds = (found: unknown, wanted: string, written: string): void => {
    const why = differs(found, wanted);
    if (why !== null) wrong.push(`${written}: ${why}`);
  };
  const throws = async (body: () => Promise<void>, wanted: string, written: string): Promise<void> => {
    const message = await body().then(
      () => null,
      (error: unknown) => (error instanceof Error ? error.message : String(error)),
    );
    if (message === null) wrong.push(`${written}: threw nothing`);
    else if (!message.includes(wanted)) wrong.push(`${written}: threw ${JSON.stringify(message)}`);
  };
  const names = Object.keys(scope);
  try {
    const AsyncFunction = Object.getPrototypeOf(async () => {}).constructor;
    await new AsyncFunction(...names, "__holds", "__throws", parts.join("\n"))(...names.map((name) => scope[name]), holds, throws);
  } catch (error) {
    wrong.push(`the example broke: ${String(error)}`);
  }
  return { checked, wrong };
}

type Value = Extract<ParseResult["program"]["body"][number], { readonly type: "ExpressionStatement" }>["expression"];

/** How a result differs from what is written after `// =>`; null when it doesn't. */
function differs(found: unknown, wanted: string): string | null {
  const text = `(${wanted})`;
  const { program, errors } = parseSync("value.ts", text);
  const [statement] = program.body;
  if (errors.length > 0 || statement?.type !== "ExpressionStatement") return `${JSON.stringify(wanted)} is no value`;
  return agrees(found, statement.expression, text) ? null : `gave ${show(found)}, not ${wanted}`;
}

/** Whether a result is what a written value says; `text` is what `value` was read from. */
function agrees(found: unknown, value: Value, text: string): boolean {
  if (value.type === "ParenthesizedExpression") return agrees(found, value.expression, text);
  if (value.type === "ArrayExpression") {
    const list = isList(found) ? Array.from(found) : null;
    if (list?.length !== value.elements.length) return false;
    return value.elements.every((one, at) => one !== null && one.type !== "SpreadElement" && agrees(list[at], one, text));
  }
  if (value.type === "ObjectExpression") {
    if (typeof found !== "object" || found === null) return false;
    const held = new Map<string, unknown>(Object.entries(found));
    if (held.size !== value.properties.length) return false;
    return value.properties.every((one) => {
      if (one.type !== "Property" || one.computed) return false;
      const name = one.key.type === "Identifier" ? one.key.name : one.key.type === "Literal" ? String(one.key.value) : "";
      return held.has(name) && agrees(held.get(name), one.value, text);
    });
  }
  const raw = text.slice(value.start, value.end);
  const decimals = /^-?\d+\.(\d+)$/.exec(raw)?.[1];
  if (decimals === undefined) return Object.is(found, new Function(`return ${raw};`)());
  return typeof found === "number" && Math.abs(found - Number(raw)) <= 0.5 * 10 ** -decimals.length * (1 + 1e-9);
}

function isList(value: unknown): value is ArrayLike<unknown> {
  return Array.isArray(value) || (ArrayBuffer.isView(value) && "length" in value);
}

function show(value: unknown): string {
  return typeof value === "number" || value === undefined ? String(value) : (JSON.stringify(value) ?? String(value));
}
