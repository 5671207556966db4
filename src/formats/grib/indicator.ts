import { type Issue, issue } from "../../core/answers/index.ts";
import type { WindowReader } from "../bytes/index.ts";
import { edition1Length } from "./edition1/sections.ts";
import { Octets } from "./octets.ts";
import { INDICATOR_BYTES } from "./sections.ts";

/** A message's place and length, from its indicator (section 0). */
export interface GribMessage {
  readonly number: number;
  readonly edition: 1 | 2;
  readonly offsetBytes: number;
  readonly lengthBytes: number;
  /** 255 in edition 1, which has none. */
  readonly discipline: number;
}

/** What stands where the letters GRIB do. `unsound`: where it ends isn't known. */
export type Indicated = { readonly kind: "message"; readonly message: GribMessage } | { readonly kind: "unsound"; readonly issue: Issue };

const LETTERS = [0x47, 0x52, 0x49, 0x42] as const;
const EDITION_AT = 7;
/** "GRIB" in running text is followed by letters; an edition is a small number. */
const HIGHEST_EDITION = 9;
const SEARCH_BYTES = 8192;
/** The shortest message with a field: its sections with the least that each may hold. */
const LEAST_MESSAGE_BYTES = { 1: 8 + 28 + 11 + 4, 2: 16 + 21 + 14 + 9 + 11 + 6 + 5 + 4 };

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
  if (edition !== 1 && edition !== 2) {
    return unsound("edition-not-read", `The message is of GRIB edition ${edition}; editions 1 and 2 are read.`);
  }
  const lengthBytes = edition === 1 ? await edition1Length(reader, offsetBytes) : octets.u64(9);
  if (lengthBytes < LEAST_MESSAGE_BYTES[edition])
    return unsound("file-lies", `The message says it is ${lengthBytes} bytes long, too short for a field.`);
  if (lengthBytes > left) {
    return unsound("file-truncated", `The message says it is ${lengthBytes} bytes long, and the file ends ${left} bytes into it.`);
  }
  return { kind: "message", message: { number, edition, offsetBytes, lengthBytes, discipline: edition === 1 ? 255 : octets.u8(7) } };
}
