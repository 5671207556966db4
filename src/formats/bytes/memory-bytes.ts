import { type ByteSource, checkRequest } from "./byte-source.ts";

/** Bytes already in memory. What `read` gives is a view, not a copy. */
export function bytesFromMemory(bytes: Uint8Array): ByteSource {
  return {
    sizeBytes: bytes.length,
    read(offsetBytes, lengthBytes) {
      try {
        checkRequest(bytes.length, offsetBytes, lengthBytes);
      } catch (error) {
        return Promise.reject(error);
      }
      return Promise.resolve(bytes.subarray(offsetBytes, offsetBytes + lengthBytes));
    },
  };
}
