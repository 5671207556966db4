import { bad, issue, type Parsed } from "../core/answers/index.ts";
import { quoted } from "../core/units/index.ts";
import { type PassageDocument, readPassage } from "../formats/passage/index.ts";
import { readTextFile } from "./text-file.ts";
import { textKind } from "./text-kind.ts";

/** Reads a passage file alone. Another file in its place is named for what it is, rather than read as a faulty passage. */
export async function readPassageFile(path: string): Promise<Parsed<PassageDocument>> {
  const text = await readTextFile(path, path, "passage file");
  if (!text.ok) return text;
  const read = readPassage(text.value, { name: path });
  if (read.ok || !read.issues.some((one) => one.code === "passage-syntax" || one.code === "not-a-passage")) return read;
  const kind = textKind(text.value);
  if (kind === "passage" || /^\s*\{[\s\S]*"(?:boat|route|limits|water|weather)"\s*:/.test(text.value)) return read;
  const begins = quoted((text.value.trim().split(/[\r\n]/)[0] ?? "").slice(0, 60));
  const is = {
    land: " It may be a file of land and hazards (GeoJSON).",
    letter: " It may be a letter.",
    sailTable: " It may be a table of speeds under sail.",
    other: "",
  }[kind];
  const message = `${path} is no passage file: it begins ${begins}; a passage file begins with the line \`athwart: passage/1\`.${is}`;
  const cure = {
    land: "Name the file in a passage file, as `files: [land.geojson]` under land; athwart inspect shows what it holds.",
    letter:
      "Name the letter in a passage file, as `- letter: letter.txt` under the sources of weather; athwart inspect shows how it is read.",
    sailTable: "Name the table in a passage file, as `table: speeds.txt` under boat.sail; athwart inspect shows how it is read.",
    other: "Check the name of the file.",
  }[kind];
  return bad(issue(path, "not-a-passage", message, cure));
}
