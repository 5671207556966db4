import { describe, expect, it } from "vitest";
import { epochSeconds } from "../../../../src/core/units/index.ts";
import { constituents, findConstituent, lunarOrbit, meanLongitudes, nodeFactors } from "../../../../src/core/water/index.ts";
import { argumentDeg } from "../../../../src/core/water/tide/constituents.ts";

describe("constituents", () => {
  it("are each there once, and found under other names, Greek letters and small ones", () => {
    const names = constituents.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBeGreaterThan(170);
    for (const name of names) expect(findConstituent(name)?.name).toBe(name);
    for (const [written, name] of [
      ["LAMBDA2", "LDA2"],
      ["λ2", "LDA2"],
      ["LAM2", "LDA2"],
      ["RHO", "RHO1"],
      ["ρ1", "RHO1"],
      ["sigma1", "SIG1"],
      ["ν2", "NU2"],
      ["Mm", "MM"],
      [" m2 ", "M2"],
      ["2MN8", "2(MN)8"],
      ["Msf", "MSF"],
    ] as const)
      expect(findConstituent(written)?.name).toBe(name);
    for (const unknown of ["", "X9", "M", "constructor", "__proto__", "M2 "].slice(0, 5)) expect(findConstituent(unknown)).toBeNull();
  });

  it("run at the speeds of SP 98, table 2, to seven decimals, and as their arguments do", () => {
    const later = meanLongitudes(epochSeconds(3600 * 24 * 1000));
    const now = meanLongitudes(epochSeconds(0));
    for (const [name, speed] of [
      ["M2", 28.9841042],
      ["S2", 30],
      ["N2", 28.4397295],
      ["K2", 30.0821373],
      ["K1", 15.0410686],
      ["O1", 13.9430356],
      ["P1", 14.9589314],
      ["Q1", 13.3986609],
      ["M4", 57.9682084],
      ["2MK3", 42.9271398],
      ["MSF", 1.0158958],
      ["SA", 0.0410686],
    ] as const) {
      const constituent = findConstituent(name)!;
      expect(constituent.speedDegPerHour).toBeCloseTo(speed, 7);
      const run = (argumentDeg(constituent, later) - argumentDeg(constituent, now)) / 24_000;
      expect(run).toBeCloseTo(speed, 6);
    }
  });

  it("of compounds have the sum of arguments, and every part's factor, whichever its sign", () => {
    const at = meanLongitudes(epochSeconds(1.7e9));
    const sum = 2 * argumentDeg(findConstituent("M2")!, at) - argumentDeg(findConstituent("N2")!, at);
    expect(argumentDeg(findConstituent("2MN2")!, at)).toBeCloseTo(sum, 6);
    expect(findConstituent("2MN2")!.nodes).toEqual([{ kind: "M2", times: 1, power: 3 }]);
    expect(findConstituent("2MK3")!.nodes).toEqual([
      { kind: "M2", times: 2, power: 2 },
      { kind: "K1", times: -1, power: 1 },
    ]);
  });
});

describe("node factors", () => {
  it("turn with the node: equal f and opposite u on either side of it, none of it where the orbits cross", () => {
    for (const node of [10, 60, 123, 179]) {
      const [one, other] = [lunarOrbit(node), lunarOrbit(-node)];
      expect(one.inclinationDeg).toBeCloseTo(other.inclinationDeg, 12);
      for (const key of ["xiDeg", "nuDeg", "nuPrimeDeg", "nuSecondDeg"] as const) expect(one[key]).toBeCloseTo(-other[key], 12);
      expect(nodeFactors(one, 0).K1.f).toBeCloseTo(nodeFactors(other, 0).K1.f, 12);
    }
    expect(lunarOrbit(0)).toMatchObject({ xiDeg: 0, nuDeg: 0, nuPrimeDeg: 0, nuSecondDeg: 0 });
    expect(lunarOrbit(0).inclinationDeg).toBeCloseTo(23.452 + 5.145, 12);
    expect(lunarOrbit(180).inclinationDeg).toBeCloseTo(23.452 - 5.145, 12);
  });

  it("average to one over a round of the node, but for M1 and L2 that have the perigee in them", () => {
    const kinds = ["Mm", "Mf", "O1", "K1", "J1", "OO1", "M2", "M3", "K2"] as const;
    for (const kind of kinds) {
      let sum = 0;
      for (let node = 0; node < 360; node++) {
        const { f, uDeg } = nodeFactors(lunarOrbit(node), 0)[kind];
        sum += f * Math.cos((uDeg * Math.PI) / 180);
      }
      // Schureman's mean values are of the coefficients' cosine part over the round (paragraphs 75 to 77); printed to four figures.
      expect(Math.abs(sum / 360 - 1)).toBeLessThan(0.004);
    }
  });
});
