/** Remainders of every byte for the polynomial that PNG's annex D gives, its bits turned round. */
const TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb8_8320 : rest >>> 1;
  return rest;
});

/** The cyclic redundancy check of PNG and gzip over `bytes`, as a number from 0 to 2^32 − 1 (ISO/IEC 15948, annex D). */
export function crc32(bytes: Uint8Array): number {
  let rest = -1;
  for (let i = 0; i < bytes.length; i++) rest = TABLE[(rest ^ bytes[i]!) & 0xff]! ^ (rest >>> 8);
  return ~rest >>> 0;
}
