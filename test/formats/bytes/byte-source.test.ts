import { describe, expect, test } from "vitest";
import { bytesFromMemory, readAhead, WindowReader } from "../../../src/formats/bytes/index.ts";

const bytes = Uint8Array.from({ length: 100 }, (_, i) => i);

describe("bytes in memory", () => {
  test("give exactly what is asked for, to the last byte", async () => {
    const source = bytesFromMemory(bytes);
    expect(source.sizeBytes).toBe(100);
    expect([...(await source.read(97, 3))]).toEqual([97, 98, 99]);
    expect((await source.read(100, 0)).length).toBe(0);
  });

  test("reject what lies beyond the end, before the beginning or between bytes, quoting it", async () => {
    const source = bytesFromMemory(bytes);
    for (const [offset, length] of [
      [98, 3],
      [101, 0],
      [-1, 1],
      [0, -1],
      [0.5, 1],
      [Number.NaN, 1],
    ] as const) {
      await expect(source.read(offset, length)).rejects.toThrow(`${length} bytes from byte ${offset} of a source of 100 bytes`);
    }
  });
});

describe("bytes at once", () => {
  test("are the same as those waited for, through reading ahead too, and reject the same", async () => {
    const source = bytesFromMemory(bytes);
    const ahead = readAhead(source, 16);
    for (const one of [source, ahead]) {
      expect(one.readNow?.(97, 3)).toEqual(await one.read(97, 3));
      expect(() => one.readNow?.(98, 3)).toThrow("3 bytes from byte 98 of a source of 100 bytes");
    }
  });

  test("are not promised for a source that can't", () => {
    const { sizeBytes, read } = bytesFromMemory(bytes);
    expect(readAhead({ sizeBytes, read }).readNow).toBeUndefined();
    expect(() => new WindowReader({ sizeBytes, read }, 16).readNow(0, 1)).toThrow("can't be read at once");
  });
});

describe("the window", () => {
  test("gives the same bytes as the source, with fewer requests", async () => {
    const inner = bytesFromMemory(bytes);
    const asked: number[] = [];
    const reader = new WindowReader(
      {
        sizeBytes: 100,
        read: (offset, length) => {
          asked.push(offset);
          return inner.read(offset, length);
        },
      },
      16,
    );
    for (const [offset, length] of [
      [0, 5],
      [5, 5],
      [10, 6],
      [12, 8],
      [90, 10],
      [95, 5],
      [0, 100],
      [3, 2],
    ] as const) {
      expect([...(await reader.read(offset, length))]).toEqual([...bytes.subarray(offset, offset + length)]);
    }
    expect(asked).toEqual([0, 12, 90, 0, 3]);
    await expect(reader.read(95, 6)).rejects.toThrow("6 bytes from byte 95");
  });
});

describe("reading ahead", () => {
  test("gives the same bytes in far fewer requests", async () => {
    const bytes = Uint8Array.from({ length: 5000 }, (_, i) => i % 251);
    let requests = 0;
    const counted = {
      sizeBytes: bytes.length,
      read: (offsetBytes: number, lengthBytes: number) => {
        requests++;
        return bytesFromMemory(bytes).read(offsetBytes, lengthBytes);
      },
    };
    const ahead = readAhead(counted, 1000);
    for (let at = 0; at + 30 <= bytes.length; at += 17) expect(await ahead.read(at, 30)).toEqual(bytes.subarray(at, at + 30));
    expect(requests).toBeLessThan(8);
    expect(await ahead.read(0, 3000)).toEqual(bytes.subarray(0, 3000));
    await expect(ahead.read(4990, 20)).rejects.toThrow("4990");
  });

  test("reads what lies far apart by itself, and ahead again where pieces follow one another", async () => {
    const bytes = Uint8Array.from({ length: 9000 }, (_, i) => i % 251);
    const asked: (readonly [number, number])[] = [];
    const noted = {
      sizeBytes: bytes.length,
      read: (offsetBytes: number, lengthBytes: number) => {
        asked.push([offsetBytes, lengthBytes]);
        return bytesFromMemory(bytes).read(offsetBytes, lengthBytes);
      },
    };
    const ahead = readAhead(noted, 1000);
    for (const at of [0, 3000, 6000, 6010, 6020, 2000]) expect(await ahead.read(at, 10)).toEqual(bytes.subarray(at, at + 10));
    expect(asked).toEqual([
      [0, 1000],
      [3000, 10],
      [6000, 10],
      [6010, 1000],
      [2000, 10],
    ]);
  });
});
