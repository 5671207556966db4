import { createRequire } from "node:module";

/** OpenJPEG 2.5 compiled to WebAssembly (@cornerstonejs/codec-openjpeg, which has no types of its own): what the tests use of it. */
interface Codec {
  readonly J2KEncoder: new () => {
    getDecodedBuffer(info: FrameInfo): Uint8Array;
    setQuality(lossless: boolean, layers: number): void;
    setDecompositions(levels: number): void;
    setCompressionRatio(layer: number, ratio: number): void;
    encode(): void;
    getEncodedBuffer(): Uint8Array;
    delete(): void;
  };
  readonly J2KDecoder: new () => {
    getEncodedBuffer(length: number): Uint8Array;
    decode(): void;
    getDecodedBuffer(): Uint8Array;
    getFrameInfo(): FrameInfo;
    delete(): void;
  };
}

interface FrameInfo {
  readonly width: number;
  readonly height: number;
  readonly bitsPerSample: number;
  readonly componentCount: number;
  readonly isSigned: boolean;
}

const load: (options: object) => Promise<Codec> = createRequire(import.meta.url)("@cornerstonejs/codec-openjpeg/wasmjs");
const codec = await load({ print: () => {}, printErr: () => {} });

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** 8 to 16; the codec keeps more than 8 in two bytes. */
  readonly bits: number;
  readonly isSigned: boolean;
  readonly samples: ArrayLike<number>;
}

export interface Coding {
  readonly levels?: number;
  /** Ratios of the layers, falling; null is lossless in one layer. */
  readonly ratios?: readonly number[];
  readonly isReversible?: boolean;
}

export function encodedByOpenJpeg({ width, height, bits, isSigned, samples }: Picture, coding: Coding = {}): Uint8Array {
  const encoder = new codec.J2KEncoder();
  const bytes = encoder.getDecodedBuffer({ width, height, bitsPerSample: bits, componentCount: 1, isSigned });
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let i = 0; i < width * height; i++) {
    if (bits <= 8) view.setUint8(i, samples[i]! & 0xff);
    else view.setUint16(2 * i, samples[i]! & 0xffff, true);
  }
  const { levels = 5, ratios = [], isReversible = true } = coding;
  encoder.setQuality(isReversible, Math.max(1, ratios.length));
  for (const [layer, ratio] of ratios.entries()) encoder.setCompressionRatio(layer, ratio);
  encoder.setDecompositions(levels);
  encoder.encode();
  const encoded = encoder.getEncodedBuffer().slice();
  encoder.delete();
  return encoded;
}

export function decodedByOpenJpeg(stream: Uint8Array): Int32Array {
  const decoder = new codec.J2KDecoder();
  decoder.getEncodedBuffer(stream.length).set(stream);
  decoder.decode();
  const { width, height, bitsPerSample, isSigned } = decoder.getFrameInfo();
  const bytes = decoder.getDecodedBuffer();
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const read = (i: number): number => {
    if (bitsPerSample <= 8) return isSigned ? view.getInt8(i) : view.getUint8(i);
    return isSigned ? view.getInt16(2 * i, true) : view.getUint16(2 * i, true);
  };
  const samples = Int32Array.from({ length: width * height }, (_, i) => read(i));
  decoder.delete();
  return samples;
}
