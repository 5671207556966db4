import type { ByteSource } from "../bytes/index.ts";
import { looksLikeGrib } from "../grib/index.ts";
import { isHdf5, isNetcdfClassic } from "../netcdf/index.ts";

/** What a file is by its bytes, whatever its name. `other` is named in words that follow "this is". */
export type FileKind =
  | { readonly kind: "grib" | "netcdf-classic" | "netcdf4" | "empty" }
  | { readonly kind: "other"; readonly words: string; readonly whatToDo: string };

const UNPACK = "Unpack it first, then give the file inside.";
const FETCH = "Fetch the forecast again; a link may have led to a page instead of the file.";
const ELSE = "Give a forecast or current as GRIB or NetCDF.";

/** First bytes of files that are mistaken for forecasts, from their own formats' specifications. */
const signatures: readonly (readonly [bytes: readonly number[], words: string, whatToDo: string])[] = [
  [[0x1f, 0x8b], "a gzip archive", UNPACK],
  [[0x42, 0x5a, 0x68], "a bzip2 archive", UNPACK],
  [[0x50, 0x4b, 0x03, 0x04], "a zip archive", UNPACK],
  [[0xfd, 0x37, 0x7a, 0x58, 0x5a, 0x00], "an xz archive", UNPACK],
  [[0x28, 0xb5, 0x2f, 0xfd], "a Zstandard archive", UNPACK],
  [[0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c], "a 7z archive", UNPACK],
  [[0x1f, 0x9d], "a compress (.Z) archive", UNPACK],
  [[0x25, 0x50, 0x44, 0x46], "a PDF document", ELSE],
  [[0x89, 0x50, 0x4e, 0x47], "a PNG picture", ELSE],
  [[0xff, 0xd8, 0xff], "a JPEG picture", ELSE],
  [[0x47, 0x49, 0x46, 0x38], "a GIF picture", ELSE],
  [[0x0e, 0x03, 0x13, 0x01], "an HDF4 file", ELSE],
  [[0x42, 0x55, 0x46, 0x52], "a BUFR file (observations)", ELSE],
];

const PEEK_BYTES = 1024;

/** Recognises a file by its first bytes. */
export async function recogniseFile(source: ByteSource): Promise<FileKind> {
  if (source.sizeBytes === 0) return { kind: "empty" };
  const bytes = await source.read(0, Math.min(source.sizeBytes, PEEK_BYTES));
  if (isNetcdfClassic(bytes)) return { kind: "netcdf-classic" };
  if (isHdf5(bytes)) return { kind: "netcdf4" };
  for (const [signature, words, whatToDo] of signatures) {
    if (signature.every((byte, index) => bytes[index] === byte)) return { kind: "other", words, whatToDo };
  }
  const text = textOfBytes(bytes);
  const isPage = text !== null && /^\s*(<!doctype html|<html|<head|<body)/i.test(text);
  if (isPage) return { kind: "other", words: `a web page${titleOf(text)}`, whatToDo: FETCH };
  if (await looksLikeGrib(source)) return { kind: "grib" };
  if (text === null) return { kind: "other", words: "nothing known here", whatToDo: ELSE };
  if (/^\s*<\?xml|^\s*<[a-z]/i.test(text)) return { kind: "other", words: "an XML document", whatToDo: FETCH };
  if (/^\s*[{[]/.test(text)) return { kind: "other", words: "a JSON document", whatToDo: FETCH };
  return { kind: "other", words: `a text that begins ${JSON.stringify(firstLine(text))}`, whatToDo: ELSE };
}

/** The bytes as text, or null where they hold what no text does. */
function textOfBytes(bytes: Uint8Array): string | null {
  const isControl = (byte: number): boolean => byte < 9 || (byte > 13 && byte < 32 && byte !== 27);
  return bytes.some(isControl) ? null : new TextDecoder("utf-8").decode(bytes);
}

const firstLine = (text: string): string => {
  const line = text.trim().split(/[\r\n]/)[0] ?? "";
  return line.length > 60 ? `${line.slice(0, 60)}…` : line;
};

function titleOf(page: string): string {
  const title = /<title[^>]*>([^<]*)/i.exec(page)?.[1]?.trim();
  return title ? ` with the title ${JSON.stringify(firstLine(title))}` : "";
}
