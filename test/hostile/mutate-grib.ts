import { type Dice, diceOf } from "./dice.ts";
import { type NumberPlace, PLACES1, PLACES2 } from "./grib-places.ts";
import { changeBytes, joined, numberAt, putNumber, tellingNumber } from "./mutate-bytes.ts";

/** A message taken apart: its indicator's octets and its sections, whole. */
interface Message {
  head: Uint8Array;
  sections: Uint8Array[];
}

const END = Uint8Array.from([0x37, 0x37, 0x37, 0x37]);
const HEAD_OCTETS = { 1: 8, 2: 16 } as const;
const LENGTH_OCTETS = { 1: 3, 2: 4 } as const;
type Edition = 1 | 2;

/** The messages of a sound file. */
function partsOf(bytes: Uint8Array, edition: Edition): Message[] {
  const messages: Message[] = [];
  const headOctets = HEAD_OCTETS[edition];
  for (let at = 0; at + headOctets < bytes.length; ) {
    const length = edition === 2 ? numberAt(bytes, at + 8, 8) : numberAt(bytes, at + 4, 3);
    const sections: Uint8Array[] = [];
    for (let from = at + headOctets; from < at + length - 4; ) {
      const octets = numberAt(bytes, from, LENGTH_OCTETS[edition]);
      sections.push(bytes.slice(from, from + octets));
      from += octets;
    }
    messages.push({ head: bytes.slice(at, at + headOctets), sections });
    at += length;
  }
  return messages;
}

function whole({ head, sections }: Message, edition: Edition): Uint8Array {
  const message = joined(head, ...sections, END);
  if (edition === 2) putNumber(message, 8, 8, message.length);
  else putNumber(message, 4, 3, message.length);
  return message;
}

/** Scales and references that give values which are too great, or none. */
const REFERENCES = [0, 1, -1, 100, 130, -200, 1e4, 45, 61, 8, 5.9, 88, 119, 1e30, -1e38, Number.NaN, Number.POSITIVE_INFINITY];
const SIDES = [1, 2, 3, 5, 7, 20, 100, 360, 1000, 65_535];

const changed = (section: Uint8Array, change: (copy: Uint8Array) => void): Uint8Array => {
  const copy = section.slice();
  change(copy);
  return copy;
};

/** Changes one number of a section, at a place where the standard has one. */
function changeNumber(section: Uint8Array, places: readonly NumberPlace[], dice: Dice, size: number): Uint8Array {
  const fitting = places.filter(([octet]) => octet <= section.length);
  if (fitting.length === 0) return section;
  const [octet, width] = dice.pick(fitting);
  return changed(section, (copy) => putNumber(copy, octet - 1, width, tellingNumber(dice, width, numberAt(copy, octet - 1, width), size)));
}

/** Another number of points everywhere that it is said, and sometimes no bits to say them with: sound but large, or small. */
function resize(message: Message, dice: Dice): void {
  const by = (number: number): number => message.sections.findIndex((one) => one[4] === number);
  const [grid, packing] = [by(3), by(5)];
  if (grid < 0 || packing < 0) return;
  const [ni, nj] = dice.onceIn(150) ? [5000, 4000] : [dice.pick(SIDES), dice.pick(SIDES.slice(0, 8))];
  message.sections[grid] = changed(message.sections[grid]!, (copy) => {
    putNumber(copy, 6, 4, ni * nj);
    putNumber(copy, 30, 4, ni);
    putNumber(copy, 34, 4, nj);
    if (dice.onceIn(2)) copy[54] = 0;
  });
  message.sections[packing] = changed(message.sections[packing]!, (copy) => {
    putNumber(copy, 5, 4, ni * nj);
    if (!dice.onceIn(3)) copy[19] = 0;
  });
}

function rescale(section: Uint8Array, dice: Dice, edition: Edition): Uint8Array {
  return changed(section, (copy) => {
    const view = new DataView(copy.buffer);
    if (copy.length < 20 || edition === 1) {
      // IBM's numbers: an exponent of 16 less 64, and a fraction.
      if (copy.length > 10) copy.set([dice.pick([0x40, 0x41, 0x42, 0xc2, 0x43, 0x7f, 0x00]), dice.below(256)], 6);
      return;
    }
    if (!dice.onceIn(3)) view.setFloat32(11, dice.pick(REFERENCES));
    if (dice.onceIn(2)) view.setInt16(15, dice.pick([0, 1, 2, 3, 5, 8, -1, 127, 1000]));
    if (dice.onceIn(2)) view.setInt16(17, dice.pick([0, 1, 2, 0x8001, 0x8002, 0x7fff, 300]));
  });
}

function changeMessage(message: Message, pool: readonly Message[], dice: Dice, edition: Edition, size: number): void {
  const { sections } = message;
  if (sections.length === 0) return;
  const at = dice.below(sections.length);
  const section = sections[at]!;
  const other = dice.pick(pool);
  const placesOf = (one: Uint8Array, place: number) => (edition === 2 ? (PLACES2[one[4]!] ?? PLACES2[7]!) : PLACES1[Math.min(3, place)]!);
  const kind = dice.below(24);
  if (kind < 10) sections[at] = changeNumber(section, placesOf(section, at), dice, size);
  else if (kind < 12) {
    const from = LENGTH_OCTETS[edition];
    sections[at] = joined(section.subarray(0, from), changeBytes(section.subarray(from), dice));
    if (!dice.onceIn(4)) putNumber(sections[at]!, 0, from, sections[at]!.length);
  } else if (kind < 13) {
    const width = LENGTH_OCTETS[edition];
    sections[at] = changed(section, (copy) => putNumber(copy, 0, width, tellingNumber(dice, width, copy.length, size)));
  } else if (kind < 14) {
    const to = dice.below(sections.length);
    if (edition === 2 && section.length > 4 && dice.onceIn(2)) sections[at] = changed(section, (copy) => copy.set([dice.below(9)], 4));
    else [sections[at], sections[to]] = [sections[to]!, section];
  } else if (kind < 15) sections.splice(at, dice.onceIn(2) ? 1 : 0, ...(dice.onceIn(2) ? [section, section] : []));
  else if (kind < 19) transplant(message, other, dice, edition);
  else if (kind < 21 && edition === 2) resize(message, dice);
  else if (kind < 23) {
    const packing = edition === 2 ? sections.findIndex((one) => one[4] === 5) : sections.length - 1;
    if (packing >= 0) sections[packing] = rescale(sections[packing]!, dice, edition);
  } else
    message.head = changed(message.head, (copy) => copy.set([dice.pick([dice.below(256), 1, 2, 10, 0])], 4 + dice.below(copy.length - 4)));
}

/** Sections that go together, by their numbers; of edition 1 by their place. */
const ORGANS: Readonly<Record<Edition, readonly (readonly number[])[]>> = {
  1: [[0], [1], [2], [2, 3], [1, 2, 3]],
  2: [[1], [3], [4], [5, 7], [5, 6, 7], [3, 5, 6, 7], [6], [5], [7]],
};

/** Puts sections of another sound message in the place of the own ones. */
function transplant({ sections }: Message, other: Message, dice: Dice, edition: Edition): void {
  const organs = dice.pick(ORGANS[edition]);
  if (edition === 1) {
    for (const place of organs) if (place < sections.length && place < other.sections.length) sections[place] = other.sections[place]!;
    return;
  }
  for (const number of organs) {
    const mine = sections.findIndex((one) => one[4] === number);
    const theirs = other.sections.find((one) => one[4] === number);
    if (mine >= 0 && theirs !== undefined) sections[mine] = theirs;
  }
}

/** A GRIB file with one to four changes, most of which leave it a file of messages and sections. `others`: sound files whose sections are put in. */
export function mutateGrib(bytes: Uint8Array, others: readonly Uint8Array[], edition: Edition, dice: Dice): Uint8Array {
  if (dice.onceIn(6)) {
    let plain: Uint8Array = bytes;
    for (let changes = 1 + dice.below(3); changes > 0; changes--) plain = changeBytes(plain, dice);
    return plain;
  }
  const messages = partsOf(bytes, edition);
  const pool = partsOf(dice.pick(others), edition);
  // The same change in all messages makes a file that is still of one piece.
  const isSame = dice.onceIn(3);
  for (let changes = 1 + dice.below(4); changes > 0; changes--) {
    if (isSame) {
      const seed = dice.next();
      for (const message of messages) changeMessage(message, pool, diceOf(seed), edition, bytes.length);
    } else changeMessage(dice.pick(messages), pool, dice, edition, bytes.length);
  }
  if (dice.onceIn(10) && messages.length > 1) messages.splice(dice.below(messages.length), 1);
  if (dice.onceIn(20)) messages.push(dice.pick(messages));
  const joinedUp = joined(...messages.map((message) => whole(message, edition)));
  return dice.onceIn(12) ? changeBytes(joinedUp, dice) : joinedUp;
}
