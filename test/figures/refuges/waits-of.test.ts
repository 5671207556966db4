import { expect, it } from "vitest";
import type { RefugesTold } from "../../../src/api/index.ts";
import { drawRefuges, waitsOf } from "../../../src/figures/index.ts";

const hour = (clock: string, wait: string | null): RefugesTold["hours"][number] => ({ clock, acrossNm: 1, cells: [], wait });
const hours = [
  hour("22:00", null),
  hour("23:00", "wait for light."),
  hour("00:00", "wait for light."),
  hour("01:00", "keep sea room."),
  hour("02:00", null),
];

it("says once what hours in a row wait for, under the last of them and with the first", () => {
  expect(waitsOf(hours)).toEqual([null, null, "23:00 to 00:00: wait for light.", "01:00: keep sea room.", null]);
});

it("tells apart two runs of the same wait", () => {
  const parted = [hour("22:00", "wait."), hour("23:00", null), hour("00:00", "wait.")];
  expect(waitsOf(parted)).toEqual(["22:00: wait.", null, "00:00: wait."]);
});

it.each([true, false])("draws each wait once (compact: %s)", (compact) => {
  const told: RefugesTold = { answer: [], by: "compass", names: ["A Cove"], hours, entrances: [], warning: "" };
  const html = drawRefuges(told, { compact });
  expect(html.match(/wait for light\./g)).toHaveLength(1);
  expect(html).toContain("23:00 to 00:00: wait for light.");
});
