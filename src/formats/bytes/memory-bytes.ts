import { type ByteSource, checkRequest } from "./byte-source.ts";

/** Bytes already in memory. What `read` gives is a view, not a copy. */
export function bytesFromMemory(bytes: Uint8Array): ByteSource & Required<Pick<ByteSource, "readNow">> {
  const readNow = (offsetBytes: number, lengthBytes: number): Uint8Array => {
    checkRequest(bytes.length, offsetBytes, lengthBytes);
    return bytes.subarray(offsetBytes, offsetBytes + lengthBytes);
  };
  return { sizeBytes: bytes.length, read: async (offsetBytes, lengthBytes) => readNow(offsetBytes, lengthBytes), readNow };
}
