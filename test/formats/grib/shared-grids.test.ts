import { expect, test } from "vitest";
import { codesOf, fieldsOf, itemsOf, joined, patched, written } from "./sample-message.ts";

const elsewhere = { rows: 4, columns: 5, southDeg: -32, westDeg: 12.5, latitudeStepDeg: 0.5, longitudeStepDeg: 0.25 };

test("messages with the same grid share it, and no others", async () => {
  const [one, other, again] = await fieldsOf(joined(written(), written({ grid: elsewhere }), written({ number: 3 })));
  expect(again!.grid).toBe(one!.grid);
  expect(other!.grid).toMatchObject({ southDeg: -32 });
  expect(one!.grid).toMatchObject({ southDeg: -31 });
});

test("more grids than are remembered are all read right", async () => {
  const souths = Array.from({ length: 20 }, (_, i) => -40 + i);
  const messages = souths.map((southDeg) => written({ grid: { ...elsewhere, southDeg } }));
  const fields = await fieldsOf(joined(...messages, ...messages));
  expect(fields.map(({ grid }) => (grid.kind === "latLon" ? grid.southDeg : null))).toEqual([...souths, ...souths]);
});

test("a grid that isn't read is told of each message, at its own place", async () => {
  const unread = patched(written(), 3, 13, 0, 99);
  const both = joined(unread, unread);
  expect(await codesOf(both)).toEqual(["grid-not-read", "grid-not-read"]);
  const places = (await itemsOf(both)).map((item) => (item.kind === "oddity" ? item.issue.path : ""));
  expect(places).toEqual(["message 1 at byte 0", `message 2 at byte ${unread.length}`]);
});
