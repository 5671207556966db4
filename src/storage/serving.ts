import { type GridData, PlaneGrid } from "../core/fields/index.ts";
import { pointAt } from "../core/passage/index.ts";
import { metresFromNm, nmFromMetres } from "../core/units/index.ts";
import type { Letter } from "../formats/bulletin/index.ts";
import type { OfferedQuantity, PassageNeeds } from "./passage-needs.ts";

/** How much sea at either side of the line a grid should cover: a boat is carried off it before she is set back. Common practice. */
export const WANTED_ROOM_NM = 10;
/** The line is looked at this often. */
const LOOK_EVERY_NM = 1;

/** How a source stands to the passage's line. `forWaters`: it holds for the waters as a whole, as a letter does. */
export type LineServed =
  | { readonly kind: "whole"; readonly roomNm: number }
  | { readonly kind: "inPart"; readonly without: readonly { readonly fromNm: number; readonly untilNm: number }[] }
  | { readonly kind: "outside" }
  | { readonly kind: "forWaters" };

/** Which departures have the source for the whole of a passage as long as one in still water; UTC epoch seconds. `always`: no times. */
export type TimeServed =
  | { readonly kind: "always" }
  | { readonly kind: "whole" | "inPart"; readonly firstDepartureAt: number; readonly lastDepartureAt: number }
  | { readonly kind: "none" };

/** What a file gives of one quantity, held against the passage. */
export interface Offer {
  readonly quantity: OfferedQuantity;
  readonly wanted: boolean;
  readonly from: number | null;
  readonly until: number | null;
  readonly line: LineServed;
  readonly time: TimeServed;
}

export interface Serving {
  readonly verdict: "serves" | "servesInPart" | "doesNotServe";
  readonly offers: readonly Offer[];
}

/** What a passage can use of a quantity; directions of the sea and its parts are not asked for by any. */
const QUANTITY_OF: Readonly<Partial<Record<GridData["quantities"][number], OfferedQuantity>>> = {
  currentEastMps: "current",
  currentNorthMps: "current",
  windEastMps: "wind",
  windNorthMps: "wind",
  gustMps: "gust",
  seaHeightMetres: "seaHeight",
  seaPeriodSeconds: "seaPeriod",
};

/** What the grids of a file, cropped to the passage, are worth to it; `outside` are quantities it holds that don't reach these waters. */
export function servingOfGrids(
  grids: readonly GridData[],
  outside: readonly GridData["quantities"][number][],
  needs: PassageNeeds,
): Serving {
  const offers = new Map<OfferedQuantity, Offer>();
  for (const grid of grids) {
    const quantity = QUANTITY_OF[grid.quantities[0] as GridData["quantities"][number]];
    if (quantity === undefined || (offers.has(quantity) && grid.member !== 0)) continue;
    const from = grid.times[0] as number;
    const until = grid.times[grid.times.length - 1] as number;
    const steady = quantity === "current" && grid.times.length === 1;
    const offer: Offer = {
      quantity,
      wanted: needs.quantities.has(quantity),
      from,
      until,
      line: lineServed(grid, needs),
      time: steady ? { kind: "always" } : timeServed(from, until, needs),
    };
    const known = offers.get(quantity);
    if (known === undefined || worth(offer) > worth(known)) offers.set(quantity, offer);
  }
  for (const one of outside) {
    const quantity = QUANTITY_OF[one];
    if (quantity === undefined || offers.has(quantity)) continue;
    offers.set(quantity, {
      quantity,
      wanted: needs.quantities.has(quantity),
      from: null,
      until: null,
      line: { kind: "outside" },
      time: { kind: "none" },
    });
  }
  return judged([...offers.values()]);
}

/** What a letter is worth to the passage: it speaks of its waters as a whole. */
export function servingOfLetter(letter: Letter, needs: PassageNeeds): Serving {
  const offers: Offer[] = [];
  const give = (quantity: OfferedQuantity, periods: readonly { readonly from: number; readonly until: number }[]): void => {
    if (periods.length === 0) return;
    const from = Math.min(...periods.map((period) => period.from));
    const until = Math.max(...periods.map((period) => period.until));
    offers.push({
      quantity,
      wanted: needs.quantities.has(quantity),
      from,
      until,
      line: { kind: "forWaters" },
      time: timeServed(from, until, needs),
    });
  };
  give("wind", letter.wind);
  give(
    "gust",
    letter.wind.filter((period) => period.gustMps !== null),
  );
  give("seaHeight", letter.sea);
  give(
    "seaPeriod",
    letter.sea.filter((period) => period.periodLowSeconds !== null),
  );
  return judged(offers);
}

function judged(offers: readonly Offer[]): Serving {
  const serving = offers.filter((offer) => worth(offer) > 0);
  if (serving.length === 0) return { verdict: "doesNotServe", offers };
  return { verdict: offers.every((offer) => worth(offer) === 2) ? "serves" : "servesInPart", offers };
}

/** 2 where an offer covers the whole line and every departure, 1 where it covers some of both, 0 where it is of no use. */
export function worth(offer: Offer): 0 | 1 | 2 {
  if (offer.line.kind === "outside" || offer.time.kind === "none") return 0;
  return offer.line.kind === "inPart" || offer.time.kind === "inPart" ? 1 : 2;
}

function timeServed(from: number, until: number, needs: PassageNeeds): TimeServed {
  const { leaveFrom, leaveUntil } = needs.passage;
  const latest = until - (needs.takesSeconds ?? 0);
  const firstDepartureAt = Math.max(from, leaveFrom ?? from);
  const lastDepartureAt = Math.min(latest, leaveUntil ?? latest);
  if (lastDepartureAt < firstDepartureAt) return { kind: "none" };
  const whole = firstDepartureAt === (leaveFrom ?? from) && lastDepartureAt === (leaveUntil ?? latest);
  return { kind: whole ? "whole" : "inPart", firstDepartureAt, lastDepartureAt };
}

/** Looks along the line, and then beside it, by the same rule by which passages are reckoned. */
function lineServed(grid: GridData, needs: PassageNeeds): LineServed {
  const { line } = needs;
  const laid = new PlaneGrid(grid, line.plane, "sheet");
  const spots = Math.max(1, Math.ceil(nmFromMetres(line.lengthMetres) / LOOK_EVERY_NM));
  const alongAt = (i: number): number => (line.lengthMetres * i) / spots;
  const out = new Float64Array(laid.components);
  const levels = levelsWithValues(grid);
  const isKnown = (i: number): boolean => {
    const { xMetres, yMetres } = pointAt(line, alongAt(i), 0);
    if (!laid.moveTo(xMetres, yMetres)) return false;
    return levels.length > 0 && levels.every((level) => laid.readLevelInto(out, 0, level));
  };
  const known = Array.from({ length: spots + 1 }, (_, i) => isKnown(i));
  if (!known.includes(true)) return { kind: "outside" };
  if (known.includes(false)) {
    const without: { fromNm: number; untilNm: number }[] = [];
    known.forEach((isThere, i) => {
      if (isThere) return;
      const last = without.at(-1);
      if (last !== undefined && known[i - 1] === false) last.untilNm = nmFromMetres(alongAt(i));
      else without.push({ fromNm: nmFromMetres(alongAt(i)), untilNm: nmFromMetres(alongAt(i)) });
    });
    return { kind: "inPart", without };
  }
  const reaches = (offNm: number): boolean =>
    known.every((_, i) =>
      [offNm, -offNm].every((off) => {
        const { xMetres, yMetres } = pointAt(line, alongAt(i), metresFromNm(off));
        return laid.moveTo(xMetres, yMetres);
      }),
    );
  let roomNm = 0;
  while (roomNm < WANTED_ROOM_NM && reaches(roomNm + 1)) roomNm++;
  return { kind: "whole", roomNm };
}

/** The times that hold any value: one that only begins an interval has none. */
function levelsWithValues({ times, missing }: GridData): number[] {
  const nodes = missing.length / times.length;
  return [...times.keys()].filter((level) => missing.subarray(level * nodes, (level + 1) * nodes).includes(0));
}
