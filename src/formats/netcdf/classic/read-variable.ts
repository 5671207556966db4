import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { ByteSource } from "../../bytes/index.ts";
import { checkedBlock } from "../block.ts";
import { bytesOfType, type ClassicHeader, emptyValues, type Hyperslab, type NetcdfValues } from "../netcdf-types.ts";
import { copyRun } from "./values.ts";

/** One read may fetch bytes it doesn't need when they lie between needed ones: up to this span always… */
const SMALL_SPAN_BYTES = 64 * 1024;
/** …and up to this one when at least a quarter of it is needed. */
const LARGE_SPAN_BYTES = 4 * 1024 * 1024;

/**
 * Reads a block of a variable, or all of it, in the order of its dimensions, as stored (no scale, no fill applied). Reads little more
 * than the bytes of the block. `file-truncated` where the source ends before its stated size. Throws for an unknown name or a block
 * outside the shape: that is our own bug.
 */
export async function readClassicVariable(
  source: ByteSource,
  header: ClassicHeader,
  name: string,
  slab?: Hyperslab,
): Promise<Parsed<NetcdfValues>> {
  const variable = header.variables.get(name);
  if (!variable) throw new Error(`no variable ${JSON.stringify(name)} in this file`);
  const { shape, type } = variable;
  const { start, count } = checkedBlock(variable, slab);
  const total = count.reduce((product, many) => product * many, 1);
  const out = emptyValues(type, total);
  if (total === 0) return good(out);

  const width = bytesOfType[type];
  const strides = stridesBytes(shape, width, variable.isRecord ? header.recordBytes : null);
  const rank = shape.length;
  /** How many leading dimensions are walked one index at a time; the rest is one read, one span of the file. */
  let outer = 0;
  while (outer < rank && !isOneRead(spanBytes(count, strides, outer, width), valuesFrom(count, outer) * width)) outer++;
  const span = spanBytes(count, strides, outer, width);
  const valuesPerRead = valuesFrom(count, outer);

  const index = new Array<number>(outer).fill(0);
  let outIndex = 0;
  for (;;) {
    let offset = variable.beginBytes;
    for (let axis = 0; axis < rank; axis++) offset += (start[axis]! + (index[axis] ?? 0)) * strides[axis]!;
    const bytes = await source.read(offset, span);
    if (bytes.length < span) {
      return bad(issue(name, "file-truncated", `The file breaks off in the data of "${name}", at byte ${offset + bytes.length}.`));
    }
    gather(out, outIndex, new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength), count, strides, outer, type);
    outIndex += valuesPerRead;
    let axis = outer - 1;
    while (axis >= 0) {
      index[axis]!++;
      if (index[axis]! < count[axis]!) break;
      index[axis] = 0;
      axis--;
    }
    if (axis < 0) return good(out);
  }
}

function stridesBytes(shape: readonly number[], width: number, recordBytes: number | null): number[] {
  const strides = new Array<number>(shape.length);
  let stride = width;
  for (let axis = shape.length - 1; axis >= 0; axis--) {
    strides[axis] = axis === 0 && recordBytes !== null ? recordBytes : stride;
    stride *= shape[axis]!;
  }
  return strides;
}

const valuesFrom = (count: readonly number[], axis: number): number => count.slice(axis).reduce((product, many) => product * many, 1);

/** From the first to the last byte of the block along the dimensions from `axis` on. */
function spanBytes(count: readonly number[], strides: readonly number[], axis: number, width: number): number {
  let span = width;
  for (let at = axis; at < count.length; at++) span += (count[at]! - 1) * strides[at]!;
  return span;
}

const isOneRead = (span: number, needed: number): boolean =>
  span === needed || span <= SMALL_SPAN_BYTES || (span <= LARGE_SPAN_BYTES && needed * 4 >= span);

function gather(
  out: NetcdfValues,
  outIndex: number,
  view: DataView,
  count: readonly number[],
  strides: readonly number[],
  axis: number,
  type: Parameters<typeof copyRun>[5],
): void {
  const last = count.length - 1;
  const walk = (at: number, offset: number, index: number): number => {
    if (at > last) {
      copyRun(out, index, view, offset, 1, type);
      return index + 1;
    }
    if (at === last && strides[at] === bytesOfType[type]) {
      copyRun(out, index, view, offset, count[at]!, type);
      return index + count[at]!;
    }
    let next = index;
    for (let step = 0; step < count[at]!; step++) next = walk(at + 1, offset + step * strides[at]!, next);
    return next;
  };
  walk(axis, 0, outIndex);
}
