/**
 * Standing off with drift, as a skipper reckons it on the back of the chart.
 *
 * 40 miles due east in still water at 5 knots take 8 h; dark until 13 h 30 after the start. Five miles off, after 7 h, she heaves to on the
 * port tack in 15 kn from the west. She drifts at 4 % of that, 0.6 kn, 48° to the left of down-wind (090), so toward 042. How long may she
 * lie? The run in takes an hour from where she stopped, a little less or more from where she has drifted to. After 5 h 45 she is 2.6 miles
 * north and 2.7 short of the buoy: 3.7 miles, three quarters of an hour. So she lets draw at 12 h 45 and is there at 13 h 30.
 *
 * Source: the same by scipy on the plane, references/make_lie_to.py → lie-to.json. Status: computed.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { lieTo, oneHeading } from "../../src/core/passage/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { uniformCurrent } from "../../src/core/water/index.ts";
import { periodWind } from "../../src/core/weather/index.ts";
import { arriving, crossing, FLAT, HOUR, KN, NM, powerBoat } from "../core/passage/waters.ts";

interface Case {
  readonly name: string;
  readonly toNm: readonly [number, number];
  readonly boatKn: number;
  readonly currentKn: readonly [number, number];
  readonly windKn: number;
  readonly windFromDegTrue: number;
  readonly arriveHours: number;
  readonly tack: "port" | "starboard";
  readonly plannedHours: number;
  readonly heaveToHours: number;
  readonly fromNm: readonly [number, number];
  readonly drawHours: number;
  readonly untilNm: readonly [number, number];
  readonly driftNm: number;
  readonly driftTowardDegTrue: number;
}

const cases: readonly Case[] = JSON.parse(readFileSync(new URL("./references/lie-to.json", import.meta.url), "utf8"));
const MINUTE = 60;
/** Nodes of the track stand every five minutes: the place to heave to lies on the straight piece between two. */
const WITHIN_METRES = 50;

describe("lying to until it is light", () => {
  it.each(cases)("$name", (one) => {
    const [u, v] = one.currentKn;
    const towardDeg = ((Math.atan2(u, v) * 180) / Math.PI + 360) % 360;
    const waters = crossing(uniformCurrent(towardDeg, Math.hypot(u, v) * KN), [0, 0], one.toNm, powerBoat(one.boatKn));
    const speedMps = one.windKn * KN;
    const always = { from: epochSeconds(0), until: epochSeconds(72 * HOUR), arcDeg: 0, gustMps: null };
    const wind = periodWind(
      "letter",
      null,
      [{ ...always, fromDegTrue: one.windFromDegTrue, speedLowMps: speedMps, speedHighMps: speedMps }],
      1.4,
    );
    const around = { ...waters.around, wind: wind.onPlane(FLAT, 0), windCovers: wind.covers };
    const way = arriving(oneHeading(waters, 0));
    expect(Math.abs(way.arrivalAt / HOUR - one.plannedHours) * HOUR).toBeLessThan(5);
    const lying = lieTo(waters, around, way, one.arriveHours * HOUR, one.tack);
    if (lying.kind === "fails") throw new Error(lying.why.code);
    expect(Math.abs(lying.fromAt - one.heaveToHours * HOUR)).toBeLessThan(MINUTE / 2);
    expect(Math.abs(lying.drawAt - one.drawHours * HOUR)).toBeLessThan(MINUTE / 2);
    expect(Math.abs(lying.run.arrivalAt - one.arriveHours * HOUR)).toBeLessThan(MINUTE / 2);
    for (const [place, nm] of [
      [lying.from, one.fromNm],
      [lying.until, one.untilNm],
    ] as const) {
      expect(Math.hypot(place.xMetres - nm[0] * NM, place.yMetres - nm[1] * NM)).toBeLessThan(WITHIN_METRES);
    }
    expect(Math.abs(lying.driftMetres / NM - one.driftNm)).toBeLessThan(0.03);
    expect(Math.abs(lying.driftTowardDegTrue - one.driftTowardDegTrue)).toBeLessThan(0.1);
  });
});
