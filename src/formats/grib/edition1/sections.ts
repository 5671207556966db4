import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { WindowReader } from "../../bytes/index.ts";
import type { GribSpan } from "../grib-field.ts";
import { Octets } from "../octets.ts";
import { END_BYTES } from "../sections.ts";
import { u24 } from "./numbers.ts";

/** Section 0: the letters GRIB, the length on three octets, the edition. */
export const EDITION1_INDICATOR_BYTES = 8;

/** Each section's whole stretch of the file; null where the message leaves it out. */
export interface Edition1Sections {
  readonly section1: GribSpan;
  readonly section2: GribSpan | null;
  readonly section3: GribSpan | null;
  readonly section4: GribSpan;
}

/** The least that each section may hold (Manual on Codes I.2, FM 92 GRIB edition 1). */
const LEAST_BYTES = { section1: 28, section2: 32, section3: 6, section4: 11 };
/** Section 1, octet 8: which sections the message has (flag table 1). */
const HAS_SECTION_2 = 0x80;
const HAS_SECTION_3 = 0x40;
/** The three octets of a length reach to 16 MB, and by a custom only to half of that. */
const TOP_BIT = 0x80_0000;
/** Lengths that reach further are counted in so many octets, with what is over in the length of section 4. */
const LARGE_UNIT_BYTES = 120;

/**
 * The message's length. Three octets hold it up to 8 MB; a larger one has the top bit set, counts in 120 octets, and section 4 says
 * as its own length how many are too many, and 4 (ECMWF's custom, which others took over). Where the sections don't lead to section 4
 * the length is what the three octets say.
 */
export async function edition1Length(reader: WindowReader, offsetBytes: number): Promise<number> {
  const said = u24(new Octets(await reader.read(offsetBytes + 4, 3)), 1);
  if (said < TOP_BIT) return said;
  const large = (said - TOP_BIT) * LARGE_UNIT_BYTES;
  const walked = await walk(reader, offsetBytes, reader.source.sizeBytes);
  if (typeof walked === "string") return offsetBytes + said > reader.source.sizeBytes ? large : said;
  return walked.section4Said < LARGE_UNIT_BYTES ? large - walked.section4Said + 4 : said;
}

/** The message's sections, which must fill it to its "7777"; else what can't be true. */
export async function edition1Sections(
  reader: WindowReader,
  offsetBytes: number,
  lengthBytes: number,
  path: string,
): Promise<Parsed<Edition1Sections>> {
  const end = offsetBytes + lengthBytes - END_BYTES;
  if (end < offsetBytes + EDITION1_INDICATOR_BYTES)
    return bad(issue(path, "file-lies", `The message says it is ${lengthBytes} bytes long.`));
  const last = await reader.read(end, END_BYTES);
  if (!last.every((byte) => byte === 0x37)) return bad(issue(path, "file-lies", 'The message doesn\'t end with "7777".'));
  const walked = await walk(reader, offsetBytes, end);
  if (typeof walked === "string") return bad(issue(path, "file-lies", walked));
  const { section1, section2, section3, section4Offset, section4Said } = walked;
  const left = end - section4Offset;
  // A message counted in 120 octets doesn't give section 4's length: it goes to the end.
  const isLarge = lengthBytes >= TOP_BIT && section4Said < LARGE_UNIT_BYTES;
  if (left < LEAST_BYTES.section4 || (!isLarge && section4Said !== left)) {
    return bad(issue(path, "file-lies", `Section 4, at byte ${section4Offset}, says it is ${section4Said} bytes long; ${left} are left.`));
  }
  return good({ section1, section2, section3, section4: { offsetBytes: section4Offset, lengthBytes: left } });
}

interface Walked {
  readonly section1: GribSpan;
  readonly section2: GribSpan | null;
  readonly section3: GribSpan | null;
  readonly section4Offset: number;
  /** The length that section 4 gives for itself. */
  readonly section4Said: number;
}

/** Goes from section to section up to section 4, none reaching beyond `end`; a string says what can't be true. */
async function walk(reader: WindowReader, messageOffset: number, end: number): Promise<Walked | string> {
  const sectionAt = async (number: 1 | 2 | 3, offsetBytes: number): Promise<GribSpan | string> => {
    const least = LEAST_BYTES[`section${number}`];
    if (offsetBytes + least > end) return `The message ends before section ${number}.`;
    const lengthBytes = u24(new Octets(await reader.read(offsetBytes, 3)), 1);
    if (lengthBytes >= least && offsetBytes + lengthBytes <= end) return { offsetBytes, lengthBytes };
    return `Section ${number}, at byte ${offsetBytes}, says it is ${lengthBytes} bytes long; ${end - offsetBytes} are left.`;
  };
  const section1 = await sectionAt(1, messageOffset + EDITION1_INDICATOR_BYTES);
  if (typeof section1 === "string") return section1;
  const flags = (await reader.read(section1.offsetBytes + 7, 1))[0]!;
  let next = section1.offsetBytes + section1.lengthBytes;
  const section2 = (flags & HAS_SECTION_2) === 0 ? null : await sectionAt(2, next);
  if (typeof section2 === "string") return section2;
  next += section2 === null ? 0 : section2.lengthBytes;
  const section3 = (flags & HAS_SECTION_3) === 0 ? null : await sectionAt(3, next);
  if (typeof section3 === "string") return section3;
  next += section3 === null ? 0 : section3.lengthBytes;
  if (next + LEAST_BYTES.section4 > end) return "The message ends before section 4.";
  return { section1, section2, section3, section4Offset: next, section4Said: u24(new Octets(await reader.read(next, 3)), 1) };
}
