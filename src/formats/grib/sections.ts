import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { WindowReader } from "../bytes/index.ts";
import { Octets } from "./octets.ts";

/** A section's place: its number, and its whole stretch of the file, header included. */
export interface GribSection {
  readonly number: number;
  readonly offsetBytes: number;
  readonly lengthBytes: number;
}

export const INDICATOR_BYTES = 16;
export const END_BYTES = 4;
const SECTION_HEADER_BYTES = 5;

/** Which section may follow which (Manual on Codes I.2, FM 92 GRIB, regulation 92.1.3 and note on repeated sections); 8 is the end. */
const FOLLOWS: Readonly<Record<number, readonly number[]>> = { 0: [1], 1: [2, 3], 2: [3], 3: [4], 4: [5], 5: [6], 6: [7], 7: [2, 3, 4, 8] };

/**
 * The section at `offsetBytes`, held against the message's end and against the section before; section 8 is the four bytes "7777",
 * which stand at the message's very end and nowhere else.
 */
export async function nextSection(
  reader: WindowReader,
  offsetBytes: number,
  messageEndBytes: number,
  previous: number,
  path: string,
): Promise<Parsed<GribSection>> {
  const allowed = FOLLOWS[previous] ?? [];
  const left = messageEndBytes - offsetBytes;
  if (left === END_BYTES) {
    const end = await reader.read(offsetBytes, END_BYTES);
    if (!end.every((byte) => byte === 0x37)) return bad(issue(path, "file-lies", 'The message doesn\'t end with "7777".'));
    if (!allowed.includes(8)) return bad(issue(path, "file-lies", `The message ends after section ${previous}.`));
    return good({ number: 8, offsetBytes, lengthBytes: END_BYTES });
  }
  if (left < END_BYTES + SECTION_HEADER_BYTES) {
    return bad(issue(path, "file-lies", `Section ${previous} leaves ${left} bytes of the message, too few for another.`));
  }
  const header = new Octets(await reader.read(offsetBytes, SECTION_HEADER_BYTES));
  const lengthBytes = header.u32(1);
  const number = header.u8(5);
  if (!allowed.includes(number)) {
    return bad(issue(path, "file-lies", `Section ${number} stands after section ${previous}, at byte ${offsetBytes}.`));
  }
  if (lengthBytes < SECTION_HEADER_BYTES || lengthBytes > left - END_BYTES) {
    return bad(
      issue(
        path,
        "file-lies",
        `Section ${number}, at byte ${offsetBytes}, says it is ${lengthBytes} bytes long; ${left - END_BYTES} are left.`,
      ),
    );
  }
  return good({ number, offsetBytes, lengthBytes });
}

/** A section's octets, at most `most` of them. */
export async function octetsOf(reader: WindowReader, section: GribSection, most: number): Promise<Octets> {
  return new Octets(await reader.read(section.offsetBytes, Math.min(section.lengthBytes, most)));
}
