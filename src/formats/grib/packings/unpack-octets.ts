/**
 * Unpacks numbers of one, two or three whole octets, from byte `at` on, to `out` from `from` up to `to`, four at a time, as far as fours go;
 * gives the place behind the last. They are written as (`reference` + number × `step`) / `divisor`. These widths are common, and no shift
 * by a variable is half the work saved.
 */
export function unpackOctets(
  view: DataView,
  at: number,
  bits: 8 | 16 | 24,
  out: Float64Array,
  from: number,
  to: number,
  reference: number,
  step: number,
  divisor: number,
): number {
  const end = to - ((to - from) % 4);
  const unpack = bits === 8 ? unpackSingle : bits === 16 ? unpackPairs : unpackTriples;
  unpack(view, at, out, from, end, reference, step);
  // Dividing costs as much as all the rest; by one it changes nothing.
  if (divisor !== 1) for (let i = from; i < end; i++) out[i] = out[i]! / divisor;
  return end;
}

function unpackSingle(view: DataView, at: number, out: Float64Array, from: number, end: number, reference: number, step: number): void {
  for (let i = from, o = at; i < end; i += 4, o += 4) {
    const four = view.getUint32(o);
    out[i] = reference + (four >>> 24) * step;
    out[i + 1] = reference + ((four >>> 16) & 0xff) * step;
    out[i + 2] = reference + ((four >>> 8) & 0xff) * step;
    out[i + 3] = reference + (four & 0xff) * step;
  }
}

function unpackPairs(view: DataView, at: number, out: Float64Array, from: number, end: number, reference: number, step: number): void {
  for (let i = from, o = at; i < end; i += 4, o += 8) {
    const two = view.getUint32(o);
    const next = view.getUint32(o + 4);
    out[i] = reference + (two >>> 16) * step;
    out[i + 1] = reference + (two & 0xffff) * step;
    out[i + 2] = reference + (next >>> 16) * step;
    out[i + 3] = reference + (next & 0xffff) * step;
  }
}

function unpackTriples(view: DataView, at: number, out: Float64Array, from: number, end: number, reference: number, step: number): void {
  for (let i = from, o = at; i < end; i += 4, o += 12) {
    const first = view.getUint32(o);
    const second = view.getUint32(o + 4);
    const third = view.getUint32(o + 8);
    out[i] = reference + (first >>> 8) * step;
    out[i + 1] = reference + (((first & 0xff) << 16) | (second >>> 16)) * step;
    out[i + 2] = reference + (((second & 0xffff) << 8) | (third >>> 24)) * step;
    out[i + 3] = reference + (third & 0xffffff) * step;
  }
}
