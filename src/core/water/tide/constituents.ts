import { wrap360Deg } from "../../units/index.ts";
import { astronomicalRows, type DoodsonNumbers } from "./astronomical-constituents.ts";
import { compoundLines } from "./compound-constituents.ts";
import { type MeanLongitudes, RATES_DEG_PER_HOUR } from "./mean-longitudes.ts";
import type { NodeFactor, NodeKind } from "./node-factors.ts";

/** A tidal constituent: its argument V, and the factors that make up its f and u. */
export interface Constituent {
  readonly name: string;
  readonly doodson: DoodsonNumbers;
  /** Quarter turns added to the argument; −1 and 3 are the same. */
  readonly quarterTurns: number;
  /** Whose u is added, how often, and whose f is multiplied: once for each part, whichever its sign. */
  readonly nodes: readonly { readonly kind: NodeKind; readonly times: number; readonly power: number }[];
  /** Degrees an hour, of the argument without u. */
  readonly speedDegPerHour: number;
}

/** Other names under which published constants give them; Greek letters and letters in any case are read besides. */
const otherNames: Readonly<Record<string, readonly string[]>> = {
  "SA-P1": ["SA_KV", "SA-IOS"],
  "S1-P1": ["S1_KV", "S1-IOS"],
  MSF: ["MSFC"],
  MTM: ["MFM", "A7"],
  ALP1: ["ALPHA1"],
  SIG1: ["SIGMA1", "SGM"],
  RHO1: ["RHO", "RO1"],
  BET1: ["BETA1"],
  THE1: ["THETA1"],
  KQ1: ["UPS1", "UPSILON1"],
  "3N2": ["OQ2_KV"],
  OQ2: ["OO2", "OQ2-HORN"],
  EPS2: ["EP2", "EPSILON2"],
  GAM2: ["GAMMA2"],
  H1: ["ALP2", "ALPHA2", "M(SK)2"],
  H2: ["BETA2", "M(KS)2"],
  LDA2: ["LAM2", "LAMBDA2", "LA2"],
  KJ2: ["ETA2"],
  SK3: ["R3"],
  "3M2S2": ["3MS2"],
  "M2(KS)2": ["M2KS2"],
  "2SN(MK)2": ["2SNMK2"],
  "2KM(SN)2": ["2KMSN2"],
  "2MNLS6": ["2MLNS6"],
  "2(MN)8": ["2MN8"],
  "2(MS)8": ["2MS8"],
};

const greekLetters: Readonly<Record<string, string>> = {
  Α: "ALPHA",
  Β: "BETA",
  Γ: "GAMMA",
  Ε: "EPSILON",
  Η: "ETA",
  Θ: "THETA",
  Λ: "LAMBDA",
  Μ: "MU",
  Ν: "NU",
  Π: "PI",
  Ρ: "RHO",
  Σ: "SIGMA",
  Τ: "TAU",
  Υ: "UPSILON",
  Φ: "PHI",
  Χ: "CHI",
  Ψ: "PSI",
};

const speedOf = (doodson: readonly number[]): number =>
  doodson.reduce((sum, times, i) => sum + times * (RATES_DEG_PER_HOUR[i] as number), 0);

const astronomical: readonly Constituent[] = astronomicalRows.map(([name, doodson, quarterTurns, kind]) => ({
  name,
  doodson,
  quarterTurns,
  nodes: kind === null ? [] : [{ kind, times: 1, power: 1 }],
  speedDegPerHour: speedOf(doodson),
}));

const byName = new Map(astronomical.map((one) => [one.name, one]));

/** A line such as `2MK3 = 2*M2 - K1` summed up. Throws on one that is not so written. */
function compoundOf(line: string): Constituent {
  const [name, sum] = line.split(" = ");
  if (name === undefined || sum === undefined) throw new Error(`not a compound constituent: ${line}`);
  const doodson: [number, number, number, number, number, number] = [0, 0, 0, 0, 0, 0];
  const nodes = new Map<NodeKind, { times: number; power: number }>();
  let quarterTurns = 0;
  for (const [, sign, many, part] of `+ ${sum}`.matchAll(/([+-]) (?:(\d)\*)?(\S+)/g)) {
    const of = byName.get(part ?? "");
    if (of === undefined) throw new Error(`not a compound constituent: ${line}`);
    const times = (sign === "-" ? -1 : 1) * Number(many ?? 1);
    for (const i of doodson.keys()) doodson[i] = (doodson[i] as number) + times * (of.doodson[i] as number);
    quarterTurns += times * of.quarterTurns;
    for (const { kind } of of.nodes) {
      const sum = nodes.get(kind) ?? { times: 0, power: 0 };
      nodes.set(kind, { times: sum.times + times, power: sum.power + Math.abs(times) });
    }
  }
  return { name, doodson, quarterTurns, nodes: [...nodes].map(([kind, sum]) => ({ kind, ...sum })), speedDegPerHour: speedOf(doodson) };
}

/** Every constituent that is known, the astronomical first. */
export const constituents: readonly Constituent[] = [...astronomical, ...compoundLines.map(compoundOf)];

const byAnyName = new Map<string, Constituent>(
  constituents.flatMap((one) => [one.name, ...(otherNames[one.name] ?? [])].map((name) => [name, one] as const)),
);

/** The constituent of a name as constants are published under it (`M2`, `lambda2`, `ν2`, `SGM`); null for one that is not known. */
export function findConstituent(name: string): Constituent | null {
  const upper = name.trim().toUpperCase();
  const written = [...upper].map((letter) => greekLetters[letter] ?? letter).join("");
  return byAnyName.get(written) ?? null;
}

/** V of a constituent, degrees, running on without a jump at 360: its equilibrium argument at Greenwich without u (SP 98, table 2). */
export function argumentDeg({ doodson, quarterTurns }: Constituent, at: MeanLongitudes): number {
  const { hourDeg, moonDeg, sunDeg, moonPerigeeDeg, moonNodeDeg, sunPerigeeDeg } = at;
  const [τ, s, h, p, nPrime, p1] = doodson;
  return (
    τ * (hourDeg - moonDeg + sunDeg) +
    s * moonDeg +
    h * sunDeg +
    p * moonPerigeeDeg -
    nPrime * moonNodeDeg +
    p1 * sunPerigeeDeg +
    90 * quarterTurns
  );
}

/** f and u of a constituent from those of its parts: u adds with its sign, f multiplies. */
export function factorOf({ nodes }: Constituent, factors: Readonly<Record<NodeKind, NodeFactor>>): NodeFactor {
  let f = 1;
  let uDeg = 0;
  for (const { kind, times, power } of nodes) {
    f *= factors[kind].f ** power;
    uDeg += factors[kind].uDeg * times;
  }
  return { f, uDeg };
}

/** V + u in [0, 360), for tables. */
export const equilibriumDeg = (constituent: Constituent, at: MeanLongitudes, { uDeg }: NodeFactor): number =>
  wrap360Deg(argumentDeg(constituent, at) + uDeg);
