import { mkdtemp, rm, truncate, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { bytesFromFile } from "../../src/storage/file-bytes.ts";

let folder = "";
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "athwart-bytes-"));
});
afterEach(async () => {
  await rm(folder, { recursive: true });
});

test("a file gives exactly what is asked for and rejects what lies beyond its end", async () => {
  const path = join(folder, "file");
  await writeFile(
    path,
    Uint8Array.from({ length: 1000 }, (_, i) => i % 251),
  );
  const source = await bytesFromFile(path);
  expect(source.sizeBytes).toBe(1000);
  expect([...(await source.read(996, 4))]).toEqual([996, 997, 998, 999].map((i) => i % 251));
  expect(source.readNow?.(996, 4)).toEqual(await source.read(996, 4));
  const room = new Uint8Array(4);
  expect(source.readNow?.(996, 4, room)).toBe(room);
  expect(room).toEqual(await source.read(996, 4));
  expect(() => source.readNow?.(996, 5)).toThrow("5 bytes from byte 996");
  await expect(source.read(996, 5)).rejects.toThrow("5 bytes from byte 996");
  await source.close();
  await expect(source.read(0, 1)).rejects.toThrow();
});

test("a file that grows shorter while it is read is told as truncated", async () => {
  const path = join(folder, "file");
  await writeFile(path, new Uint8Array(1000));
  const source = await bytesFromFile(path);
  await truncate(path, 500);
  const cutOff = { issues: [{ code: "file-truncated", path: `${path} byte 500` }] };
  await expect(source.read(400, 200)).rejects.toMatchObject(cutOff);
  await expect((async () => source.readNow?.(400, 200))()).rejects.toMatchObject(cutOff);
  await source.close();
});

test("a folder is no file, and a missing file is the system's error", async () => {
  await expect(bytesFromFile(folder)).rejects.toMatchObject({ issues: [{ code: "file-not-recognised" }] });
  await expect(bytesFromFile(join(folder, "none"))).rejects.toMatchObject({ code: "ENOENT" });
});
