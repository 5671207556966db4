import { bad, good, issue, type Parsed } from "../core/answers/index.ts";
import { quoted } from "../core/units/index.ts";
import { bytesFromFile, kindOfFile, type Library, readTextFile, type TextKind, textKind } from "../storage/index.ts";

/** What a stored file is as far as sources must tell: a letter, another text, or a forecast. Issue `file-not-here`. */
export async function kindOfStored(library: Library, passageId: string, name: string): Promise<Parsed<TextKind | "forecast">> {
  const entry = library.entry(passageId);
  if (!entry.ok) return entry;
  const file = library.filesOf(passageId).find((one) => one.name === name);
  if (file === undefined) return bad(issue("file", "file-not-here", `the passage has no stored file ${quoted(name.slice(0, 60))}`));
  return kindOfContent(library.contents.pathOf(file.hash), name);
}

/** The same of a file on the disk, by what it holds. */
export async function kindOfContent(path: string, name: string): Promise<Parsed<TextKind | "forecast">> {
  const source = await bytesFromFile(path);
  try {
    const start = await source.read(0, Math.min(4096, source.sizeBytes));
    if (start.length > 0 && kindOfFile(start) === "binary") return good("forecast");
  } finally {
    await source.close();
  }
  const text = await readTextFile(path, name, "text", 50_000_000, name);
  return text.ok ? good(textKind(text.value)) : text;
}
