/**
 * Unpacks numbers of one or two whole octets, four at a time, as far as fours go; gives how many that were. They are written as
 * (`reference` + number × `step`) / `divisor`. These widths are common, and no shift by a variable is half the work saved.
 */
export function unpackOctets(view: DataView, octets: 1 | 2, out: Float64Array, reference: number, step: number, divisor: number): number {
  const count = out.length - (out.length % 4);
  if (octets === 1) unpackSingle(view, out, count, reference, step, divisor);
  else unpackPairs(view, out, count, reference, step, divisor);
  return count;
}

function unpackSingle(view: DataView, out: Float64Array, count: number, reference: number, step: number, divisor: number): void {
  // Dividing costs as much as all the rest; by one it changes nothing.
  if (divisor === 1) {
    for (let i = 0; i < count; i += 4) {
      const four = view.getUint32(i);
      out[i] = reference + (four >>> 24) * step;
      out[i + 1] = reference + ((four >>> 16) & 0xff) * step;
      out[i + 2] = reference + ((four >>> 8) & 0xff) * step;
      out[i + 3] = reference + (four & 0xff) * step;
    }
    return;
  }
  for (let i = 0; i < count; i += 4) {
    const four = view.getUint32(i);
    out[i] = (reference + (four >>> 24) * step) / divisor;
    out[i + 1] = (reference + ((four >>> 16) & 0xff) * step) / divisor;
    out[i + 2] = (reference + ((four >>> 8) & 0xff) * step) / divisor;
    out[i + 3] = (reference + (four & 0xff) * step) / divisor;
  }
}

function unpackPairs(view: DataView, out: Float64Array, count: number, reference: number, step: number, divisor: number): void {
  if (divisor === 1) {
    for (let i = 0; i < count; i += 4) {
      const two = view.getUint32(2 * i);
      const next = view.getUint32(2 * i + 4);
      out[i] = reference + (two >>> 16) * step;
      out[i + 1] = reference + (two & 0xffff) * step;
      out[i + 2] = reference + (next >>> 16) * step;
      out[i + 3] = reference + (next & 0xffff) * step;
    }
    return;
  }
  for (let i = 0; i < count; i += 4) {
    const two = view.getUint32(2 * i);
    const next = view.getUint32(2 * i + 4);
    out[i] = (reference + (two >>> 16) * step) / divisor;
    out[i + 1] = (reference + (two & 0xffff) * step) / divisor;
    out[i + 2] = (reference + (next >>> 16) * step) / divisor;
    out[i + 3] = (reference + (next & 0xffff) * step) / divisor;
  }
}
