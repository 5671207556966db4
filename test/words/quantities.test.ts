import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { epochSeconds } from "../../src/core/units/index.ts";
import {
  duration,
  eastWest,
  fileSize,
  fullTime,
  longitude,
  margin,
  miles,
  position,
  signedDuration,
  threeFigures,
} from "../../src/words/index.ts";

describe("figures in words", () => {
  it("sets headings in three figures, and 360 as 000", () => {
    expect([7, 118.4, 359.6, 360, -1, 719.2].map(threeFigures)).toEqual(["007", "118", "000", "000", "359", "359"]);
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        (deg) => /^[0-3]\d\d$/.test(threeFigures(deg)) && threeFigures(deg) < "360",
      ),
    );
  });

  it("carries 60 minutes over, in positions and durations", () => {
    expect(position(-17.99999, -149.99999)).toBe("18°00.0'S 150°00.0'W");
    expect(position(0.5, 9.25)).toBe("00°30.0'N 009°15.0'E");
    expect(longitude(190)).toBe("170°00.0'W");
    expect(duration(3599)).toBe("1\u00a0h\u00a000");
    expect(duration(45 * 60)).toBe("45\u00a0min");
    expect(duration(-29)).toBe("0\u00a0min");
  });

  it("never prints a nought with a sign", () => {
    expect(miles(-0.1)).toBe("0.0");
    expect(margin(-0.001)).toBe("+0.00");
    expect(signedDuration(-10)).toBe("0\u00a0min");
    expect(eastWest(-0.01)).toBe("0.0°");
  });

  it("tells east from west, above from below, sizes from each other", () => {
    expect(eastWest(-12.34)).toBe("12.3° W");
    expect(margin(-0.45)).toBe("−0.45");
    expect(margin(-3)).toBe("< −1");
    expect([812, 1127, 640132, 999_600, 1_400_000].map(fileSize)).toEqual(["812 bytes", "1.1 kB", "640 kB", "1.0 MB", "1.4 MB"]);
  });

  it("a time that stands alone says its day, year and zone", () => {
    // 2027-04-08T12:00Z
    expect(fullTime(epochSeconds(1807185600), "UTC-8")).toBe("Thu 8 Apr 2027, 04:00 UTC-8");
  });
});
