// Whether what is foretold comes true as often as was said. The truth is made here by other means than the program's: another generator
// of numbers, errors from the square root of a matrix of covariances, another way to move the boat.
import { describe, expect, it } from "vitest";
import { sunAltitudeDeg } from "../../src/core/earth/index.ts";
import { epochSeconds, metresFromNm } from "../../src/core/units/index.ts";
import { uniformCurrent } from "../../src/core/water/index.ts";
import { CHANCE_DEFAULTS, chanceOf, type KeptChance, type Limit, type WeatherToFeel } from "../../src/core/window/index.ts";
import { tryOne } from "../core/window/chance/setup.ts";
import { clock, HOUR, kn, limit, plane, SteadyBoat, trial, winds } from "../core/window/setup.ts";

const CASES = 24_000;
const SAMPLES = 2000;
const LONGEST_HOURS = 16;
const berth = plane.toPosition(0, 0);

/** Numbers by Park and Miller's minimal standard generator (Comm. ACM 31:1192, 1988), normal by Box and Muller's formula. */
class Truth {
  private state = 20260604;

  even(): number {
    this.state = (this.state * 48271) % 2147483647;
    return this.state / 2147483647;
  }

  normal(): number {
    return Math.sqrt(-2 * Math.log(this.even())) * Math.cos(2 * Math.PI * this.even());
  }

  /** An error at the hours 0 to `LONGEST_HOURS` by the lower square root of its covariances. */
  hourly(root: readonly (readonly number[])[]): readonly number[] {
    const drawn = root.map(() => this.normal());
    return root.map((row) => row.reduce((sum, weight, k) => sum + weight * (drawn[k] as number), 0));
  }
}

/** Cholesky's lower square root of the matrix of correlations by lag in hours. */
function rootOf(correlation: (lagHours: number) => number): readonly (readonly number[])[] {
  const rows: number[][] = [];
  for (let i = 0; i <= LONGEST_HOURS; i++) {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      const known = (j === i ? row : (rows[j] as number[])).slice(0, j).reduce((sum, value, k) => sum + value * (row[k] as number), 0);
      const rest = correlation(i - j) - known;
      row.push(j === i ? Math.sqrt(Math.max(0, rest)) : rest / ((rows[j] as number[])[j] as number));
    }
    rows.push(row);
  }
  return rows;
}

const at = (hourly: readonly number[], hours: number): number => {
  const before = Math.min(LONGEST_HOURS - 1, Math.floor(hours));
  return (hourly[before] as number) + (hours - before) * ((hourly[before + 1] as number) - (hourly[before] as number));
};

// The drifters' correlation by lag in straight lines: 1, 0.50 after 6 h, 0.26 after 12, 0 after 24.
const currentRoot = rootOf((lag) =>
  lag <= 6 ? 1 - lag / 12 : lag <= 12 ? 0.5 - 0.04 * (lag - 6) : Math.max(0, 0.26 - (0.26 / 12) * (lag - 12)),
);
const windRoot = rootOf((lag) => Math.exp(-lag / 24));

interface Setup {
  readonly nm: number;
  readonly knots: number;
  readonly windKnots: number;
  readonly departHour: number;
  readonly leadHours: number;
}

const setups: readonly Setup[] = [
  { nm: 36, knots: 6, windKnots: 12, departHour: 14, leadHours: 14 },
  { nm: 24, knots: 5, windKnots: 16, departHour: 17, leadHours: 41 },
  { nm: 48, knots: 6.5, windKnots: 14, departHour: 13, leadHours: 85 },
  { nm: 40, knots: 5.5, windKnots: 18, departHour: 14, leadHours: 26 },
];

const issuedHours = ({ departHour, leadHours }: Setup): number => departHour - leadHours;

/** What the program foretells, before any limit. */
function foretold(setup: Setup): KeptChance {
  const felt: WeatherToFeel = { wind: winds({ from: issuedHours(setup), until: 96, dir: 200, low: setup.windKnots }), sea: null };
  const crossing = trial({ nm: setup.nm, boat: new SteadyBoat(setup.knots), current: uniformCurrent(0, 0) });
  return tryOne(() => crossing, clock(setup.departHour), felt, { ...CHANCE_DEFAULTS, samples: SAMPLES, currentRmsMps: 0.25 });
}

/** What comes true once: the strongest wind met and when she arrives. The boat is moved in steps of five minutes, straight on. */
function comesTrue(setup: Setup, truth: Truth): { readonly strongestMps: number; readonly arrivalAt: number } {
  const D = metresFromNm(setup.nm);
  const late = 1800 * truth.even();
  const speed = kn(setup.knots) * Math.exp(0.1 * truth.normal());
  const bias = ((3 * Math.PI) / 180) * truth.normal();
  const [along, across, blow] = [truth.hourly(currentRoot), truth.hourly(currentRoot), truth.hourly(windRoot)];
  const spread = 0.25 / Math.SQRT2;
  let [x, y, seconds, strongest] = [0, 0, late, 0];
  const windAt = (s: number): number => {
    const share = 0.15 + 0.06 * Math.min(7, (setup.leadHours + s / HOUR) / 24);
    return kn(setup.windKnots) * Math.exp(share * at(blow, s / HOUR));
  };
  const step = 300;
  while (x < D - 1) {
    strongest = Math.max(strongest, windAt(seconds));
    const [u, v] = [spread * at(along, (seconds + step / 2) / HOUR), spread * at(across, (seconds + step / 2) / HOUR)];
    let [vx, vy] = [speed * Math.cos(bias) + u, speed * Math.sin(bias) + v];
    if (x >= 0.8 * D) {
      // On the straight track to the destination from where she was at 0.8 of the way: the heading makes good what sets her off it.
      const toGo = Math.hypot(D - x, y);
      const [cos, sin] = [(D - x) / toGo, -y / toGo];
      const off = -u * sin + v * cos;
      const made = Math.sqrt(speed * speed - off * off) + u * cos + v * sin;
      [vx, vy] = [made * cos, made * sin];
      if (made * step >= toGo)
        return {
          strongestMps: Math.max(strongest, windAt(seconds + toGo / made)),
          arrivalAt: clock(setup.departHour) + seconds + toGo / made,
        };
    }
    const part = x < 0.8 * D && x + vx * step > 0.8 * D ? (0.8 * D - x) / (vx * step) : 1;
    x += vx * step * part;
    y += vy * step * part;
    seconds += step * part;
  }
  return { strongestMps: strongest, arrivalAt: clock(setup.departHour) + seconds };
}

describe("what is foretold", () => {
  it(`comes true as often as was said: ${CASES} cases in nine bins, each within three binomial standard errors`, () => {
    const truth = new Truth();
    const kept = setups.map(foretold);
    const bins = Array.from({ length: 9 }, () => ({ cases: 0, foretold: 0, true: 0 }));
    for (let i = 0; i < CASES; i++) {
      const which = i % setups.length;
      const setup = setups[which] as Setup;
      // Limits drawn for each case, so that every chance from small to great is asked for.
      const middleAt = clock(setup.departHour) + (setup.nm / setup.knots) * HOUR + 900;
      const darkAt = middleAt + 5400 * truth.normal();
      const lowest = sunAltitudeDeg(epochSeconds(darkAt), berth);
      const windNever = setup.windKnots * Math.exp(0.35 * truth.normal() + 0.25);
      const limits: readonly Limit[] = [
        limit("windMps", 0, windNever),
        limit("sunAltitudeDeg", lowest + 10, lowest, { during: "arrival" }),
      ];
      const { good } = chanceOf(kept[which] as KeptChance, limits);
      const met = comesTrue(setup, truth);
      const came = met.strongestMps <= kn(windNever) && met.arrivalAt <= darkAt;
      const bin = bins[Math.round(10 * good.share) - 1];
      if (bin === undefined) continue;
      bin.cases++;
      bin.foretold += good.share;
      if (came) bin.true++;
    }
    const rows = bins.map(({ cases, foretold: sum, true: came }) => {
      const said = sum / cases;
      return { cases, said, came: came / cases, inErrors: (came / cases - said) / Math.sqrt((said * (1 - said)) / cases) };
    });
    for (const row of rows) {
      expect(row.cases).toBeGreaterThanOrEqual(1000);
      expect(Math.abs(row.inErrors)).toBeLessThan(3);
    }
  }, 240_000);
});
