// @ts-check

/** @typedef {{ readonly kind: string, readonly meaning: string, readonly whatToDo: string }} CodeEntry */
/** @typedef {Readonly<Record<string, CodeEntry>>} CodeTable */

const kinds = /** @type {Readonly<Record<string, string>>} */ ({
  input: "what was given can't be used",
  noAnswer: "the sea or the data has no answer",
});

/**
 * The page of the manual that lists every code, a heading for each room's table.
 * @param {readonly { readonly room: string, readonly table: CodeTable }[]} tables
 */
export function codesText(tables) {
  const parts = [
    "# Codes",
    "",
    "Every refusal carries one of these codes: in the messages, and under `code` in `--json`. This page is made from the registry by",
    "`npm run docs`; change the tables in `src/core/answers/codes/`, not the page.",
    "",
  ];
  for (const { room, table } of tables) {
    const entries = Object.entries(table);
    if (entries.length === 0) continue;
    parts.push(`## ${headingOf(room)}`, "");
    for (const [code, entry] of entries) {
      parts.push(`### \`${code}\``, "", `${entry.meaning} *(${kinds[entry.kind] ?? entry.kind})*`, "", `What to do: ${entry.whatToDo}`, "");
    }
  }
  return parts.join("\n");
}

/** @param {string} room as its table's file is named, e.g. "passage-file" */
function headingOf(room) {
  const words = room.replaceAll("-", " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/**
 * A table's file holds one exported table; this is it.
 * @param {Readonly<Record<string, unknown>>} module
 * @returns {CodeTable}
 */
export function tableOf(module) {
  const tables = Object.entries(module).filter(([name]) => name.endsWith("Codes"));
  const [only] = tables;
  if (only === undefined || tables.length > 1)
    throw new Error(`expected one exported table named …Codes, found: ${Object.keys(module).join(", ")}`);
  return /** @type {CodeTable} */ (only[1]);
}
