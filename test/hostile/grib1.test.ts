import { test } from "vitest";
import { expectBorne } from "./expect-borne.ts";

test("5,000 mutations of files of GRIB edition 1: each is read or refused, within its budget, and gives no value in silence that no forecast has", {
  timeout: 300_000,
}, async () => {
  await expectBorne("grib1", [
    "file-lies",
    "file-truncated",
    "stray-bytes",
    "packing-not-read",
    "grid-not-read",
    "product-not-read",
    "edition-not-read",
    "value-doubtful",
    "value-implausible",
    "component-missing",
    "several-runs",
  ]);
});
