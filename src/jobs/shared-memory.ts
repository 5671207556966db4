type TypedArray = Float64Array | Float32Array | Int32Array | Uint32Array | Int16Array | Uint16Array | Int8Array | Uint8Array;

/** Smaller pieces are copied sooner than they are shared, bytes. */
const WORTH_SHARING_BYTES = 4096;

/**
 * The same plain data with every large array of numbers in memory that threads share, so that handing it over copies nothing. Each piece
 * of memory is moved once, however many views there are on it; what is shared already stays.
 */
export function shared<T>(value: T): T {
  return withArrays(value, new Map(), new Map()) as T;
}

function withArrays(value: unknown, moved: Map<ArrayBufferLike, SharedArrayBuffer>, met: Map<object, unknown>): unknown {
  if (typeof value !== "object" || value === null) return value;
  const known = met.get(value);
  if (known !== undefined) return known;
  if (ArrayBuffer.isView(value)) {
    const view = viewOf(value as TypedArray, moved);
    met.set(value, view);
    return view;
  }
  if (Array.isArray(value)) {
    const list: unknown[] = [];
    met.set(value, list);
    for (const one of value) list.push(withArrays(one, moved, met));
    return list;
  }
  const made: Record<string, unknown> = {};
  met.set(value, made);
  for (const [key, one] of Object.entries(value)) made[key] = withArrays(one, moved, met);
  return made;
}

function viewOf(array: TypedArray, moved: Map<ArrayBufferLike, SharedArrayBuffer>): TypedArray {
  const { buffer, byteOffset, length } = array;
  if (buffer instanceof SharedArrayBuffer || array.byteLength < WORTH_SHARING_BYTES) return array;
  let memory = moved.get(buffer);
  if (memory === undefined) {
    memory = new SharedArrayBuffer(buffer.byteLength);
    new Uint8Array(memory).set(new Uint8Array(buffer));
    moved.set(buffer, memory);
  }
  const Kind = array.constructor as new (memory: SharedArrayBuffer, byteOffset: number, length: number) => TypedArray;
  return new Kind(memory, byteOffset, length);
}
