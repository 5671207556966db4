import { test } from "vitest";
import { expectBorne } from "./expect-borne.ts";

test("5,600 mutations of NetCDF classic files: each is read or refused, within its budget, and gives no value in silence that no forecast has", {
  timeout: 300_000,
}, async () => {
  await expectBorne("netcdf", [
    "file-lies",
    "file-truncated",
    "grid-not-read",
    "time-not-read",
    "unit-not-known",
    "value-doubtful",
    "value-implausible",
    "component-alone",
  ]);
});
