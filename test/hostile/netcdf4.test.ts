import { test } from "vitest";
import { expectBorne } from "./expect-borne.ts";

test("400 mutations of NetCDF-4 files: each is read or refused, within its budget, and gives no value in silence that no forecast has", {
  timeout: 300_000,
}, async () => {
  await expectBorne("hdf5", ["file-lies", "file-truncated", "nothing-of-use"]);
});
