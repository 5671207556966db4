import { type Issue, issue } from "../../core/answers/index.ts";
import type { WindowReader } from "../bytes/index.ts";
import { Octets } from "./octets.ts";
import { END_BYTES, INDICATOR_BYTES } from "./sections.ts";

/** A message's place and length, from its indicator (section 0). */
export interface GribMessage {
  readonly number: number;
  readonly offsetBytes: number;
  readonly lengthBytes: number;
  readonly discipline: number;
}

/** What stands where the letters GRIB do. `passedOver`: of another edition, its bounds sound. `unsound`: where it ends isn't known. */
export type Indicated =
  | { readonly kind: "message"; readonly message: GribMessage }
  | { readonly kind: "passedOver"; readonly lengthBytes: number; readonly issue: Issue }
  | { readonly kind: "unsound"; readonly issue: Issue };

const LETTERS = [0x47, 0x52, 0x49, 0x42] as const;
const EDITION_AT = 7;
/** "GRIB" in running text is followed by letters; an edition is a small number. */
const HIGHEST_EDITION = 9;
const SEARCH_BYTES = 8192;
/** The shortest edition 2 message with a field: sections 0 to 8 with the least that each may hold. */
const LEAST_MESSAGE_BYTES = 16 + 21 + 14 + 9 + 11 + 6 + 5 + 4;

/** Where the next "GRIB" with an edition behind it begins in [from, until), or null. */
export async function findIndicator(reader: WindowReader, from: number, until: number): Promise<number | null> {
  for (let offset = from; offset + LETTERS.length <= until; ) {
    const bytes = await reader.read(offset, Math.min(SEARCH_BYTES, until - offset));
    const last = offset + bytes.length === until;
    // The last few bytes are searched again with what follows them.
    const searched = last ? bytes.length - LETTERS.length + 1 : bytes.length - EDITION_AT;
    for (let i = bytes.indexOf(LETTERS[0]); i >= 0 && i < searched; i = bytes.indexOf(LETTERS[0], i + 1)) {
      const edition = bytes[i + EDITION_AT] ?? 0;
      if (edition <= HIGHEST_EDITION && LETTERS.every((letter, k) => bytes[i + k] === letter)) return offset + i;
    }
    if (last) return null;
    offset += searched;
  }
  return null;
}

/** Section 0 at `offsetBytes`, where `findIndicator` found it; its length is held against the source. */
export async function readIndicator(reader: WindowReader, offsetBytes: number, number: number): Promise<Indicated> {
  const path = `message ${number} at byte ${offsetBytes}`;
  const left = reader.source.sizeBytes - offsetBytes;
  const unsound = (code: "file-truncated" | "file-lies" | "edition-not-read", message: string): Indicated => {
    return { kind: "unsound", issue: issue(path, code, message) };
  };
  if (left < INDICATOR_BYTES) return unsound("file-truncated", `The file ends ${left} bytes into the message.`);
  const octets = new Octets(await reader.read(offsetBytes, INDICATOR_BYTES));
  const edition = octets.u8(EDITION_AT + 1);
  if (edition === 1) return await readEdition1(reader, octets, offsetBytes, path);
  if (edition !== 2) return unsound("edition-not-read", `The message is of GRIB edition ${edition}; edition 2 is read.`);
  const lengthBytes = octets.u64(9);
  if (lengthBytes < LEAST_MESSAGE_BYTES)
    return unsound("file-lies", `The message says it is ${lengthBytes} bytes long, too short for a field.`);
  if (lengthBytes > left) {
    return unsound("file-truncated", `The message says it is ${lengthBytes} bytes long, and the file ends ${left} bytes into it.`);
  }
  return { kind: "message", message: { number, offsetBytes, lengthBytes, discipline: octets.u8(7) } };
}

/** Edition 1 has its length on three octets; where "7777" stands at its end the message is passed over whole. */
async function readEdition1(reader: WindowReader, octets: Octets, offsetBytes: number, path: string): Promise<Indicated> {
  const said = issue(path, "edition-not-read", "The message is of GRIB edition 1; edition 2 is read.");
  const lengthBytes = octets.u16(5) * 256 + octets.u8(7);
  if (lengthBytes < INDICATOR_BYTES || offsetBytes + lengthBytes > reader.source.sizeBytes) return { kind: "unsound", issue: said };
  const end = await reader.read(offsetBytes + lengthBytes - END_BYTES, END_BYTES);
  if (!end.every((byte) => byte === 0x37)) return { kind: "unsound", issue: said };
  return { kind: "passedOver", lengthBytes, issue: said };
}
