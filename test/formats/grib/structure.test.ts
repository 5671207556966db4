import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import {
  decodeGribField,
  looksLikeGrib,
  MAX_FIELDS_IN_MESSAGE,
  MAX_GRIB_POINTS,
  MAX_UNREADABLE_MESSAGES,
} from "../../../src/formats/grib/index.ts";
import {
  ascii,
  assembled,
  codesOf,
  decoded,
  fieldsOf,
  holes,
  hoursOn,
  itemsOf,
  joined,
  oneField,
  patched,
  sample,
  sectionsOf,
  signed4,
  written,
} from "./sample-message.ts";

const east = written({ missing: holes(20) });
const north = written({ number: 3, validFrom: hoursOn(9), missing: holes(20) });
const part = (message: Uint8Array, number: number): Uint8Array => sectionsOf(message).get(number)!;
const parts = (message: Uint8Array, ...numbers: readonly number[]): readonly Uint8Array[] => numbers.map((number) => part(message, number));
const sixth = (indicator: number): Uint8Array => Uint8Array.from([0, 0, 0, 6, 6, indicator]);

describe("the file", () => {
  test("messages follow one another, each with its place", async () => {
    const items = await fieldsOf(joined(east, north));
    expect(items.map(({ place, number }) => [place.messageNumber, place.fieldNumber, place.messageOffsetBytes, number])).toEqual([
      [1, 1, 0, 2],
      [2, 1, east.length, 3],
    ]);
  });

  test("a heading, bytes between and bytes after are passed over and told, with how many and where", async () => {
    const items = await itemsOf(joined(ascii("FKXX01 heading\r\n"), east, ascii("\r\r\n"), north, ascii("NNNN")));
    expect(items.map((item) => (item.kind === "field" ? item.number : `${item.issue.code}: ${item.issue.message}`))).toEqual([
      "stray-bytes: 16 bytes, from byte 0 on, belong to no message.",
      2,
      `stray-bytes: 3 bytes, from byte ${16 + east.length} on, belong to no message.`,
      3,
      `stray-bytes: 4 bytes, from byte ${19 + east.length + north.length} on, belong to no message.`,
    ]);
  });

  test("noughts that round a message up to a record are padding; a hole of noughts is told", async () => {
    expect(await codesOf(joined(east, new Uint8Array(102), north, new Uint8Array(512)))).toEqual([]);
    expect(await codesOf(joined(east, new Uint8Array(513), north))).toEqual(["stray-bytes"]);
  });

  test("a message is found wherever it begins, also across the search's pieces", async () => {
    for (const before of [1, 3, 8183, 8184, 8185, 8188, 8189, 8191, 8192, 8193, 16_380, 16_384, 20_000]) {
      const [stray, field, ...rest] = await itemsOf(joined(new Uint8Array(before).fill(0x47), east));
      expect([before, stray?.kind, field?.kind, field?.place.messageOffsetBytes, rest.length]).toEqual([
        before,
        "oddity",
        "field",
        before,
        0,
      ]);
    }
  });

  test("a file of something else is told as such", async () => {
    for (const bytes of [new Uint8Array(0), ascii("GRI"), ascii("<html>GRIB files are served</html>"), new Uint8Array(50_000)]) {
      expect(await codesOf(bytes)).toEqual(["file-not-recognised"]);
      expect(await looksLikeGrib(bytesFromMemory(bytes))).toBe(false);
    }
    expect(await looksLikeGrib(bytesFromMemory(joined(ascii("heading "), east)))).toBe(true);
  });

  test("a file cut off anywhere in its last message gives the first whole and tells where it ends", async () => {
    for (let cut = 1; cut < north.length; cut++) {
      const items = await itemsOf(joined(east, north).subarray(0, east.length + cut));
      const [first, last, ...rest] = items;
      expect([cut, first?.kind, rest.length]).toEqual([cut, "field", 0]);
      if (last?.kind !== "oddity") throw new Error(`nothing told at ${cut}`);
      // Fewer bytes than the letters GRIB could be anything.
      expect([cut, last.issue.code, last.place.messageOffsetBytes]).toEqual([cut, cut < 4 ? "stray-bytes" : "file-truncated", east.length]);
      if (cut >= 4) expect(last.issue.message).toContain(`${cut} bytes into`);
    }
  });

  test("a message whose length is too long does not hide the next one", async () => {
    const longer = east.slice();
    longer[15] = 255;
    longer[14] = 255;
    const items = await itemsOf(joined(longer, north));
    expect(items.map((item) => (item.kind === "field" ? item.number : item.issue.code))).toEqual(["file-truncated", 3]);
  });

  test('a message that doesn\'t end with "7777" is refused whole', async () => {
    const open = east.slice();
    open[open.length - 1] = 0x38;
    expect(await codesOf(open)).toEqual(["file-lies"]);
  });

  test("editions that aren't read are told; what only looks like edition 1 doesn't hide the next message", async () => {
    const nothing = joined(ascii("GRIB"), Uint8Array.from([0, 0, 52, 1]), new Uint8Array(40), ascii("7777"));
    const items = await itemsOf(joined(nothing, east));
    expect(items.map((item) => (item.kind === "field" ? item.number : item.issue.code))).toEqual(["file-lies", 2]);
    for (const edition of [0, 3]) {
      const other = east.slice();
      other[7] = edition;
      const [item] = await itemsOf(other);
      expect(item).toMatchObject({ issue: { code: "edition-not-read", message: expect.stringMatching(/editions 1 and 2 are read/) } });
    }
  });

  test("a file of endless broken messages is given up", async () => {
    const codes = await codesOf(joined(...new Array(MAX_UNREADABLE_MESSAGES * 3).fill(ascii("GRIB\0\0\0\u0002"))));
    expect(codes.length).toBe(MAX_UNREADABLE_MESSAGES + 1);
  });
});

describe("the message", () => {
  test("sections 4 to 7 again: two fields on one grid, the second with the first's bitmap", async () => {
    const sections = [...parts(east, 1, 3, 4, 5, 6, 7), ...parts(north, 4, 5), sixth(254), part(north, 7)];
    const message = assembled(sections);
    const fields = await fieldsOf(message);
    expect(fields.map(({ number, place, validAt }) => [number, place.fieldNumber, validAt])).toEqual([
      [2, 1, hoursOn(6)],
      [3, 2, hoursOn(9)],
    ]);
    const [first, second] = [await decoded(message, fields[0]!), await decoded(message, fields[1]!)];
    expect(second.missing).toEqual(first.missing);
    expect([...first.missing]).toEqual([...holes(20)]);
    expect(second.values).toEqual(first.values);
  });

  test("sections 3 to 7 again: two fields on two grids; section 2 and what it holds are passed over", async () => {
    const other = written({ number: 3, grid: { rows: 2, columns: 3, southDeg: 0, westDeg: 0, latitudeStepDeg: 1, longitudeStepDeg: 1 } });
    const local = Uint8Array.from([0, 0, 0, 9, 2, 0x47, 0x52, 0x49, 0x42]);
    const message = assembled([part(east, 1), local, ...parts(east, 3, 4, 5, 6, 7), local, ...parts(other, 3, 4, 5, 6, 7)]);
    const fields = await fieldsOf(message);
    expect(fields.map(({ grid, hasBitmap }) => [grid.rows, grid.columns, hasBitmap])).toEqual([
      [4, 5, true],
      [2, 3, false],
    ]);
    expect((await decoded(message, fields[1]!)).values.length).toBe(6);
  });

  test("one field of several that isn't read leaves the others", async () => {
    const packing = part(patched(east, 5, 10, 0, 200), 5);
    const message = assembled([...parts(east, 1, 3, 4), packing, ...parts(east, 6, 7), ...parts(north, 4, 5), sixth(254), part(north, 7)]);
    const items = await itemsOf(message);
    expect(items.map((item) => item.kind)).toEqual(["oddity", "field"]);
    const [first, second] = items;
    if (first?.kind !== "oddity" || second?.kind !== "field") throw new Error("not as said");
    expect(first.issue).toMatchObject({ code: "packing-not-read", path: "message 1 at byte 0" });
    expect(first.product).toMatchObject({ discipline: 0, category: 2, number: 2, validAt: hoursOn(6) });
    expect((await decoded(message, second)).missing).toEqual(holes(20));
  });

  test("sections out of order, left out or twice are refused", async () => {
    for (const order of [
      [3, 1, 4, 5, 6, 7],
      [1, 4, 5, 6, 7],
      [1, 3, 4, 6, 7],
      [1, 3, 4, 5, 7],
      [1, 3, 4, 5, 6],
      [1, 1, 3, 4, 5, 6, 7],
      [],
    ]) {
      const message = assembled(parts(east, ...order));
      expect([order, ...(await codesOf(message))]).toEqual([order, "file-lies"]);
    }
  });

  test("a section longer than what is left, or shorter than its header, is refused", async () => {
    for (const [offset, length] of [
      [16, 4],
      [16, 0],
      [16, 100_000],
      [37, 0xffff_ffff],
    ] as const) {
      const message = east.slice();
      new DataView(message.buffer).setUint32(offset, length);
      expect([length, ...(await codesOf(message))]).toEqual([length, "file-lies"]);
    }
  });

  test("sections too short for what they hold are refused", async () => {
    for (const number of [1, 3, 4, 5, 6]) {
      const sections = new Map(sectionsOf(east));
      for (let length = 5; length < (number === 6 ? 9 : sections.get(number)!.length); length++) {
        const short = part(east, number).slice(0, length);
        short[3] = length;
        const codes = await codesOf(assembled([...sections.set(number, short).values()]));
        expect([number, length, ...codes]).toEqual([number, length, "file-lies"]);
      }
    }
  });

  test("fewer packed bytes than the values take are refused", async () => {
    const short = part(east, 7).slice(0, -1);
    short[3] = short.length;
    expect(await codesOf(assembled([...parts(east, 1, 3, 4, 5, 6), short]))).toEqual(["file-lies"]);
  });

  test("a bitmap that has more or fewer points than are packed is refused at decoding, quoting both", async () => {
    const message = patched(east, 6, 7, 0xff);
    const values = await decodeGribField(bytesFromMemory(message), await oneField(message));
    expect(values.ok).toBe(false);
    if (values.ok) return;
    expect(values.issues[0]).toMatchObject({ code: "file-lies", message: expect.stringMatching(/16 points .* 13 values/) });
  });

  test("more or fewer values than points, without a bitmap, are refused", async () => {
    for (const count of [19, 21]) expect(await codesOf(patched(written(), 5, 6, ...signed4(count)))).toEqual(["file-lies"]);
  });

  test("an earlier bitmap that isn't there, and a bitmap of the centre's own", async () => {
    expect(await codesOf(patched(written(), 6, 6, 254))).toEqual(["file-lies"]);
    expect(await codesOf(patched(written(), 6, 6, 1))).toEqual(["packing-not-read"]);
  });

  test("a field of more points than the budget is refused before anything is allocated", async () => {
    const flat = written({ values: new Float64Array(20) });
    const rows = Math.ceil((MAX_GRIB_POINTS + 1) / 5);
    const grid = patched(patched(flat, 3, 7, ...signed4(rows * 5)), 3, 35, ...signed4(rows));
    const huge = patched(patched(grid, 3, 55, 0), 5, 6, ...signed4(rows * 5));
    expect(await codesOf(huge)).toEqual(["file-too-large"]);
  });

  test("a message of more fields than the budget is refused", async () => {
    const one = written({
      grid: { rows: 1, columns: 1, southDeg: 0, westDeg: 0, latitudeStepDeg: 1, longitudeStepDeg: 1 },
      values: new Float64Array(1),
    });
    const again = joined(...parts(one, 4, 5, 6, 7));
    const message = assembled([...parts(one, 1, 3), ...new Array<Uint8Array>(MAX_FIELDS_IN_MESSAGE + 1).fill(again)]);
    expect(await codesOf(message)).toEqual(["file-too-large"]);
  });

  test("fields are listed without reading their values", async () => {
    const grid = { rows: 300, columns: 300, southDeg: 0, westDeg: 0, latitudeStepDeg: 0.1, longitudeStepDeg: 0.1 };
    const bytes = joined(written({ grid }), written({ grid, number: 3 }));
    let asked = 0;
    const inner = bytesFromMemory(bytes);
    const source = {
      sizeBytes: inner.sizeBytes,
      read: (offset: number, length: number) => {
        asked += length;
        return inner.read(offset, length);
      },
    };
    const { readGribFields } = await import("../../../src/formats/grib/index.ts");
    let count = 0;
    for await (const item of readGribFields(source)) count += item.kind === "field" ? 1 : 0;
    expect(count).toBe(2);
    expect(bytes.length).toBeGreaterThan(300_000);
    expect(asked).toBeLessThan(60_000);
  });

  test("the values of the sample are those that were put in", async () => {
    const bytes = joined(ascii("x"), written());
    const [, field] = await itemsOf(bytes);
    if (field?.kind !== "field") throw new Error("no field");
    expect([...(await decoded(bytes, field)).values]).toEqual([...sample().values]);
  });
});
