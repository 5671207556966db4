import { type ByteSource, bytesFromMemory } from "../../src/formats/bytes/index.ts";

/** What a reader took to read a file: counted, so that it is the same on every machine. */
export interface Work {
  /** Bytes asked of the source, as often as they were asked. */
  readonly askedBytes: number;
  /** Bytes of all typed arrays made on the way, also those thrown away at once, and of what the HDF5 library's memory grew by. */
  readonly allocatedBytes: number;
}

const NAMES = [
  "Int8Array",
  "Uint8Array",
  "Uint8ClampedArray",
  "Int16Array",
  "Uint16Array",
  "Int32Array",
  "Uint32Array",
  "Float32Array",
  "Float64Array",
  "BigInt64Array",
  "BigUint64Array",
] as const;

/** Runs `read` on a source of these bytes and counts. Not for two at a time. What `read` throws is thrown. */
export async function counted<T>(bytes: Uint8Array, read: (source: ByteSource) => Promise<T>): Promise<{ result: T; work: Work }> {
  let askedBytes = 0;
  let allocatedBytes = 0;
  const inner = bytesFromMemory(bytes);
  const source: ByteSource = {
    sizeBytes: bytes.length,
    read: (offset, length) => {
      askedBytes += length;
      return inner.read(offset, length);
    },
    readNow: (offset, length) => {
      askedBytes += length;
      return inner.readNow(offset, length);
    },
  };
  const scope = globalThis as unknown as Record<string, { new (...args: unknown[]): ArrayBufferView }>;
  const real = NAMES.map((name) => scope[name]!);
  // A function in the constructor's place: what it makes is the real thing, so that reading goes its usual way.
  const counters = real.map((Real) => {
    function Counter(...args: unknown[]): ArrayBufferView {
      const made = new Real(...args);
      if (!(args[0] instanceof ArrayBuffer)) allocatedBytes += made.byteLength;
      return made;
    }
    Counter.prototype = Real.prototype;
    return Object.setPrototypeOf(Counter, Real) as typeof Real;
  });
  NAMES.forEach((name, i) => {
    scope[name] = counters[i]!;
    real[i]!.prototype.constructor = counters[i]!;
  });
  try {
    const result = await read(source);
    return { result, work: { askedBytes, allocatedBytes } };
  } finally {
    NAMES.forEach((name, i) => {
      scope[name] = real[i]!;
      real[i]!.prototype.constructor = real[i]!;
    });
  }
}
