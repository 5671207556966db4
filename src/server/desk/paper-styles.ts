import { readFileSync } from "node:fs";

const SHEETS = [
  new URL("../../figures/look.css", import.meta.url),
  new URL("../../figures/section/section.css", import.meta.url),
  new URL("../../sheet/paper.css", import.meta.url),
];

let known: string | null = null;

/** The text of the style sheets that a sheet of paper wants, as they lie beside the compiled program. */
export function paperStyles(): string {
  known ??= SHEETS.map((url) => readFileSync(url, "utf8")).join("\n");
  return known;
}
