import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Body } from "astronomy-engine";
import { describe, expect, it } from "vitest";
import { altitudeDay } from "../../src/core/earth/horizon-day.ts";
import {
  type HorizonDay,
  lightOver,
  moonIlluminatedShare,
  moonOver,
  moonPlace,
  type Position,
  positionOf,
  sunAltitudeDeg,
} from "../../src/core/earth/index.ts";
import { type EpochSeconds, epochSeconds, type Interval } from "../../src/core/units/index.ts";

const realData = process.env["ATHWART_REAL_DATA"];
if (!realData) {
  console.warn("skipped: five thousand published rises and sets (set ATHWART_REAL_DATA to the folder that holds reference/riseset.txt)");
}

const utc = (iso: string): EpochSeconds => epochSeconds(Date.parse(iso) / 1000);
/** The local day of a zone that many hours east of Greenwich. */
const localDay = (date: string, zoneHours: number): Interval => {
  const from = Date.parse(`${date}T00:00:00Z`) / 1000 - zoneHours * 3600;
  return { from: epochSeconds(from), until: epochSeconds(from + 86400) };
};
const crossing = (day: HorizonDay) => {
  if (day.kind !== "crosses") throw new Error(`no crossing: ${day.kind}`);
  return day;
};
const secondsOff = (found: EpochSeconds | null, published: string): number =>
  Math.abs((found ?? Number.POSITIVE_INFINITY) - utc(published));

describe("rise, set and twilight against published and independently computed times", () => {
  // Reda & Andreas, "Solar Position Algorithm for Solar Radiation Applications" (NREL/TP-560-34302), its example: sunrise from memory of
  // the report, both also computed with PyEphem. Trap: the sunset that the report prints for the UTC day is the evening before.
  it("Golden, Colorado, 17 October 2003: the local day's own sunset, not that of the evening before", () => {
    const place = positionOf(39.742476, -105.1786);
    const { sun } = lightOver(localDay("2003-10-17", -7), place);
    expect(secondsOff(crossing(sun).upAt, "2003-10-17T13:12:43Z")).toBeLessThan(5);
    expect(secondsOff(crossing(sun).downAt, "2003-10-18T00:18:51Z")).toBeLessThan(5);
    const utcDay = lightOver(localDay("2003-10-17", 0), place).sun;
    expect(secondsOff(crossing(utcDay).downAt, "2003-10-17T00:20:19Z")).toBeLessThan(5);
    expect(crossing(utcDay).crossings[0]?.going).toBe("down");
  });

  // Two libraries agreeing within 2 s (computed; -50', -6°, -12°; moon's upper limb with 34').
  it("51.00 N 1.50 E, 18 April 2026", () => {
    const place = positionOf(51, 1.5);
    const day = localDay("2026-04-18", 0);
    const { sun, civil, nautical } = lightOver(day, place);
    expect(secondsOff(crossing(nautical).upAt, "2026-04-18T03:33:50Z")).toBeLessThan(5);
    expect(secondsOff(crossing(civil).upAt, "2026-04-18T04:17:49Z")).toBeLessThan(5);
    expect(secondsOff(crossing(sun).upAt, "2026-04-18T04:53:11Z")).toBeLessThan(5);
    expect(secondsOff(crossing(sun).downAt, "2026-04-18T18:54:31Z")).toBeLessThan(5);
    expect(secondsOff(crossing(civil).downAt, "2026-04-18T19:30:04Z")).toBeLessThan(5);
    expect(secondsOff(crossing(nautical).downAt, "2026-04-18T20:14:23Z")).toBeLessThan(5);
    const moon = crossing(moonOver(day, place));
    expect(secondsOff(moon.upAt, "2026-04-18T04:49:30Z")).toBeLessThan(5);
    expect(secondsOff(moon.downAt, "2026-04-18T20:59:24Z")).toBeLessThan(5);
    expect(Math.abs(moonIlluminatedShare(day.from) - 0.005)).toBeLessThan(0.0005);
  });

  it("48.30 N 123.80 W, 5 August 2026: evening and moonrise fall on the next day of UTC", () => {
    const place = positionOf(48.3, -123.8);
    const day = localDay("2026-08-05", -7);
    const { sun, civil, nautical } = lightOver(day, place);
    expect(secondsOff(crossing(nautical).upAt, "2026-08-05T11:33:46Z")).toBeLessThan(5);
    expect(secondsOff(crossing(civil).upAt, "2026-08-05T12:19:57Z")).toBeLessThan(5);
    expect(secondsOff(crossing(sun).upAt, "2026-08-05T12:56:01Z")).toBeLessThan(5);
    expect(secondsOff(crossing(sun).downAt, "2026-08-06T03:45:27Z")).toBeLessThan(5);
    expect(secondsOff(crossing(civil).downAt, "2026-08-06T04:21:19Z")).toBeLessThan(5);
    expect(secondsOff(crossing(nautical).downAt, "2026-08-06T05:07:10Z")).toBeLessThan(5);
    const moon = crossing(moonOver(day, place));
    expect(secondsOff(moon.downAt, "2026-08-05T21:18:16Z")).toBeLessThan(5);
    expect(secondsOff(moon.upAt, "2026-08-06T06:19:44Z")).toBeLessThan(5);
    expect(Math.abs(moonIlluminatedShare(day.from) - 0.59)).toBeLessThan(0.005);
  });

  // An almanac exercise, seen: 16 January 2019, 22°25.3'N 75°15.3'E, zone -5; USNO rounds half a minute and over up.
  it("the almanac's civil twilight and sunrise by zone time: 06:17 and 06:41", () => {
    const { sun, civil } = lightOver(localDay("2019-01-16", 5), positionOf(22 + 25.3 / 60, 75 + 15.3 / 60));
    const zoneTime = (at: EpochSeconds | null): string =>
      new Date((Math.round((at ?? 0) / 60) * 60 + 5 * 3600) * 1000).toISOString().slice(11, 16);
    expect(zoneTime(crossing(civil).upAt)).toBe("06:17");
    expect(zoneTime(crossing(sun).upAt)).toBe("06:41");
  });

  // J. Meeus, "Astronomical Algorithms", example 15.a, seen in the test suite of a port: Venus at Boston, 20 March 1988, at -0°34'.
  it("Venus by the same search: rises 12:25:26, sets 02:54:40 UT", () => {
    const day = crossing(altitudeDay(Body.Venus, -34 / 60, localDay("1988-03-20", 0), positionOf(42 + 20 / 60, -(71 + 5 / 60))));
    expect(secondsOff(day.upAt, "1988-03-20T12:25:26Z")).toBeLessThan(60);
    expect(secondsOff(day.downAt, "1988-03-20T02:54:40Z")).toBeLessThan(60);
  });

  // A published exercise of 1981 prints 0057 for the moonrise after 2100 on 30 January at 22°26'S 158°50'E: that is the 30th's own, already
  // past. The right times (01:01.6 and 01:42.5, zone -11) were worked apart from this program by the Astronomical Almanac's low-precision
  // moon (page D46; good to 0.3°, a minute and a half here). Left without parallax the moon would rise four minutes too early.
  it("the moonrise after 21:00 is the next one, not the one already past", () => {
    const place = positionOf(-(22 + 26 / 60), 158 + 50 / 60);
    const zone = 11 * 3600;
    const asked = epochSeconds(utc("1981-01-30T21:00:00Z") - zone);
    const next = crossing(moonOver({ from: asked, until: epochSeconds(asked + 86400) }, place)).upAt ?? 0;
    const own = crossing(moonOver(localDay("1981-01-30", 11), place)).upAt ?? 0;
    expect(Math.abs(next + zone - utc("1981-01-31T01:42:28Z"))).toBeLessThan(90);
    expect(Math.abs(own + zone - utc("1981-01-30T01:01:34Z"))).toBeLessThan(90);
    expect(next).toBeGreaterThan(asked);
    expect(own).toBeLessThan(asked);
    expect(next + zone - utc("1981-01-31T00:57:00Z")).toBeGreaterThan(2400);
  });
});

describe.skipIf(!realData)("rise and set against USNO's printed minutes", () => {
  interface Printed {
    readonly body: string;
    readonly place: Position;
    readonly at: EpochSeconds;
    readonly going: "up" | "down";
  }
  const printed: Printed[] = realData
    ? readFileSync(join(realData, "reference", "riseset.txt"), "utf8")
        .trim()
        .split("\n")
        .map((line) => {
          const [body = "", lon, lat, iso, going] = line.trim().split(/\s+/);
          return {
            body,
            place: positionOf(Number(lat), Number(lon)),
            at: utc(`${iso?.slice(0, -1)}:00Z`),
            going: going === "r" ? "up" : "down",
          };
        })
    : [];
  const groups = new Map<string, Printed[]>();
  for (const one of printed) {
    const key = `${one.body} at latitude ${one.place.latitudeDeg}, longitude ${one.place.longitudeDeg}`;
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }

  // A printed minute is good to 30 s, and the program to 5 s. Where a body only skims the horizon a small height takes long: there the
  // same 35 s are taken at the greatest rate at which anything rises in that latitude, and 0.002° for the rest.
  it.each([...groups])("finds every printed one and none more: %s", (_, group) => {
    const first = group[0]!;
    const within = { from: epochSeconds(first.at - 600), until: epochSeconds(group.at(-1)!.at + 600) };
    const found = crossing(first.body === "Sun" ? lightOver(within, first.place).sun : moonOver(within, first.place)).crossings;
    expect(found.map((one) => one.going)).toEqual(group.map((one) => one.going));
    const latitudeRad = (first.place.latitudeDeg * Math.PI) / 180;
    const altitudeDeg = (at: EpochSeconds): number =>
      first.body === "Sun" ? sunAltitudeDeg(at, first.place) : moonPlace(at, first.place).altitudeDeg;
    group.forEach((one, i) => {
      const at = found[i]!.at;
      if (Math.abs(first.place.latitudeDeg) <= 84) expect(Math.abs(at - one.at)).toBeLessThan(35);
      else expect(Math.abs(altitudeDeg(at) - altitudeDeg(one.at))).toBeLessThan((35 * 15.04 * Math.cos(latitudeRad)) / 3600 + 0.002);
    });
  });

  it("has read them all", () => expect(printed.length).toBe(5909));

  // Dawns and dusks of six days in whole minutes, mostly cut off and not rounded: so within the minute.
  it("finds the printed twilights", () => {
    const lines = readFileSync(join(realData ?? "", "reference", "twilight.txt"), "utf8")
      .trim()
      .split("\n");
    expect(lines).toHaveLength(6);
    for (const line of lines) {
      const [lat, lon, start, , nauticalDawn, civilDawn, civilDusk, nauticalDusk] = line.split(/\s+/);
      const instant = (text: string | undefined): string => `${text?.slice(0, -1)}:00Z`;
      const from = utc(instant(start));
      const { civil, nautical } = lightOver({ from, until: epochSeconds(from + 86400) }, positionOf(Number(lat), Number(lon)));
      expect(secondsOff(crossing(nautical).upAt, instant(nauticalDawn))).toBeLessThan(60);
      expect(secondsOff(crossing(civil).upAt, instant(civilDawn))).toBeLessThan(60);
      expect(secondsOff(crossing(civil).downAt, instant(civilDusk))).toBeLessThan(60);
      expect(secondsOff(crossing(nautical).downAt, instant(nauticalDusk))).toBeLessThan(60);
    }
  });
});

describe("days without a rise or a set", () => {
  // Facts of the sky: at 70° N the sun stays up about 21 June and down about 21 December.
  it("midnight sun and polar night are answers", () => {
    const place = positionOf(70, 20);
    expect(lightOver(localDay("2027-06-21", 1), place)).toEqual({
      sun: { kind: "aboveThroughout" },
      civil: { kind: "aboveThroughout" },
      nautical: { kind: "aboveThroughout" },
    });
    const winter = lightOver(localDay("2027-12-21", 1), place);
    expect(winter.sun).toEqual({ kind: "belowThroughout" });
    expect(winter.civil.kind).toBe("crosses");
  });

  // USNO's printed minutes at 61 S 103 E: the moon sets 1944-01-12T23:05Z and next 01-14T00:18Z, so the 13th of UTC has no moonset.
  it("a day without a moonset has a moonrise only", () => {
    const day = crossing(moonOver(localDay("1944-01-13", 0), positionOf(-61, 103)));
    expect(day.downAt).toBeNull();
    expect(secondsOff(day.upAt, "1944-01-13T15:30:00Z")).toBeLessThan(35);
    expect(day.crossings).toHaveLength(1);
  });
});
