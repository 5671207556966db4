import { COVERED } from "../fields/index.ts";
import { turnDeg } from "../units/index.ts";
import { SEA_HEIGHT_HIGH_METRES, SEA_SLOTS, WIND_FROM_DEG, WIND_SLOTS, WIND_SPEED_HIGH_MPS } from "../weather/index.ts";
import type { Exposure } from "../window/index.ts";
import type { Prepared } from "./prepare.ts";

/** Where two runs of one forecast are joined under a passage, and by how much they part there. */
export interface Seam {
  readonly quantity: "current" | "wind" | "sea";
  readonly source: string;
  /** When the passage goes over from one run to the other. */
  readonly at: number;
  readonly fromRunIssuedAt: number | null;
  readonly toRunIssuedAt: number | null;
  /**
   * How much the second differs from the first there: the length of the currents' difference, or of winds' speeds, m/s; of sea heights,
   * metres. Null where the first doesn't reach the seam, so that between them nothing was known.
   */
  readonly jump: number | null;
  /** How far the wind turns over the seam, degrees, veering positive; null for the others and where it isn't known. */
  readonly turnDeg: number | null;
}

/** Finds the seams under passages that were run and felt; none where one run of each forecast covers a passage whole. */
export function seamFinder(prepared: Prepared): (exposure: Exposure) => readonly Seam[] {
  const all = [...currentRuns(prepared), ...windRuns(prepared), ...seaRuns(prepared)].filter(({ runs }) => runs.length > 1);
  return (exposure) => all.flatMap((runs) => seamsIn(runs, exposure)).sort((one, other) => one.at - other.at);
}

function currentRuns({ currents, plane }: Prepared): Runs[] {
  const out = new Float64Array(2);
  return currents.map((source) => ({
    quantity: "current",
    source: source.name,
    runs: (source.runs ?? []).map((run) => {
      const sampler = run.onPlane(plane);
      const read = (x: number, y: number, at: number): Read | null =>
        sampler.sampleInto(out, x, y, at) === COVERED ? { values: [...out], fromDeg: null } : null;
      return { issuedAt: run.issuedAt, covers: run.covers, read };
    }),
  }));
}

function windRuns({ winds, plane }: Prepared): Runs[] {
  const out = new Float64Array(WIND_SLOTS);
  return winds.map((source) => ({
    quantity: "wind",
    source: source.name,
    runs: (source.runs ?? []).map((run) => {
      const sampler = run.onPlane(plane, 0);
      const read = (x: number, y: number, at: number): Read | null =>
        sampler.readInto(out, x, y, at) === COVERED
          ? { values: [out[WIND_SPEED_HIGH_MPS] as number], fromDeg: out[WIND_FROM_DEG] as number }
          : null;
      return { issuedAt: run.issuedAt, covers: run.covers, read };
    }),
  }));
}

function seaRuns({ seas, plane }: Prepared): Runs[] {
  const out = new Float64Array(SEA_SLOTS);
  return seas.map((source) => ({
    quantity: "sea",
    source: source.name,
    runs: (source.runs ?? []).map((run) => {
      const sampler = run.onPlane(plane);
      const read = (x: number, y: number, at: number): Read | null =>
        sampler.readInto(out, x, y, at) === COVERED ? { values: [out[SEA_HEIGHT_HIGH_METRES] as number], fromDeg: null } : null;
      return { issuedAt: run.issuedAt, covers: run.covers, read };
    }),
  }));
}

interface Read {
  readonly values: readonly number[];
  readonly fromDeg: number | null;
}

interface LaidRun {
  readonly issuedAt: number | null;
  readonly covers: { readonly from: number; readonly until: number } | null;
  read(xMetres: number, yMetres: number, at: number): Read | null;
}

interface Runs {
  readonly quantity: Seam["quantity"];
  readonly source: string;
  /** Newest first. */
  readonly runs: readonly LaidRun[];
}

/** Walks the passage and notes each change of the run that answers: the newest that covers it whole, else at each place the newest there is. */
function seamsIn({ quantity, source, runs }: Runs, exposure: Exposure): Seam[] {
  const { count, atSeconds, xMetres, yMetres } = exposure;
  const from = atSeconds[0] as number;
  const until = atSeconds[count - 1] as number;
  if (runs.some(({ covers }) => covers === null || (covers.from <= from && covers.until >= until))) return [];
  const seams: Seam[] = [];
  let before: LaidRun | null = null;
  for (let i = 0; i < count; i++) {
    const [x, y, at] = [xMetres[i] as number, yMetres[i] as number, atSeconds[i] as number];
    const now = runs.find((run) => run.read(x, y, at) !== null) ?? null;
    if (now === null || now === before) continue;
    if (before !== null) {
      const last = before.covers?.until ?? at;
      const seamAt = last < at && last >= (atSeconds[i - 1] as number) ? last : at;
      const [one, other] = [before.read(x, y, Math.min(seamAt, last)), now.read(x, y, seamAt) ?? now.read(x, y, at)];
      seams.push({
        quantity,
        source,
        at: seamAt,
        fromRunIssuedAt: before.issuedAt,
        toRunIssuedAt: now.issuedAt,
        jump: one === null || other === null ? null : Math.hypot(...other.values.map((value, k) => value - (one.values[k] as number))),
        turnDeg: one?.fromDeg == null || other?.fromDeg == null ? null : turnDeg(one.fromDeg, other.fromDeg),
      });
    }
    before = now;
  }
  return seams;
}
