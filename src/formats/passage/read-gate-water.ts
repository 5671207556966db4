import type { OpenSpan } from "../../core/calendar/index.ts";
import { type GateNeed, HEIGHTS_APART_AT_MOST_SECONDS } from "../../core/places/index.ts";
import { parseDuration, parseLength } from "../../core/units/index.ts";
import { type Clock, readStretch, readTime } from "./clock.ts";
import type { Cursor } from "./cursor.ts";
import type { PassageData } from "./schema.ts";

type GateCursor = Cursor<NonNullable<PassageData["gates"]>[number]>;

/** A window around slack or high water reaches no farther to either side, seconds: then another one is nearer. Ours. */
const WIDEST_AROUND_SECONDS = 12 * 3600;
/** Beyond these a height is a slip of the pen. Ours. */
const DEEPEST_METRES = 100;
const HIGHEST_TIDE_METRES = 20;

/** `windows` and `around` alike: any of them serves. */
export function readWindows(cursor: GateCursor, clock: Clock): readonly OpenSpan[] {
  const stated = cursor
    .at("windows")
    .items()
    .flatMap((window): OpenSpan[] => {
      const { from, until } = readStretch({ from: window.at("from"), until: window.at("until") }, clock);
      return from === undefined || until === undefined || until <= from ? [] : [{ from, until }];
    });
  const around = cursor.at("around");
  const side = (text: string, path: string) => parseDuration(text, path, { min: 0, max: WIDEST_AROUND_SECONDS });
  const before = around.at("before").read(side);
  const after = around.at("after").read(side);
  const times = around
    .at("times")
    .items()
    .flatMap((one) => readTime(one, clock) ?? []);
  if (before === undefined || after === undefined) return stated;
  return [...stated, ...times.map((at) => ({ from: at - before, until: at + after }))];
}

/** Water enough over a sill, by stated heights of the tide; null where none is given (by computed tide: `readEntrance`), or it can't be read. */
export function readSill(
  cursor: GateCursor,
  clock: Clock,
  draughtMetres: number | null,
): Extract<GateNeed, { readonly kind: "depth" }> | null {
  const sill = cursor.at("sill");
  if (!sill.isGiven) return null;
  sill.needsOneOf(["heights", "tide"]);
  const waves = sill.at("waves");
  if (waves.isGiven && !sill.at("tide").isGiven)
    waves.complain(
      "key-out-of-place",
      `\`${waves.path}\` goes with \`tide\`: with heights of your own allow for the waves in \`underKeel\``,
    );
  if (sill.at("tide").isGiven) {
    complainOfDraught(sill, draughtMetres);
    return null;
  }
  const depth = sill.at("depth").read((text, path) => parseLength(text, path, { min: -HIGHEST_TIDE_METRES, max: DEEPEST_METRES }));
  const underKeel = sill.at("underKeel").read((text, path) => parseLength(text, path, { min: 0, max: DEEPEST_METRES }));
  const heights = sill
    .at("heights")
    .items()
    .flatMap((one) => {
      const at = readTime(one.at("at"), clock);
      const height = one
        .at("height")
        .read((text, path) => parseLength(text, path, { min: -HIGHEST_TIDE_METRES, max: HIGHEST_TIDE_METRES }));
      return at === undefined || height === undefined ? [] : [{ at, heightAboveChartDatumMetres: height }];
    });
  const cursors = sill.at("heights").items();
  // Beside one that can't be read nothing is said of the others.
  for (let i = 1; i < cursors.length && heights.length === cursors.length; i++) {
    const apart = (heights[i]?.at ?? 0) - (heights[i - 1]?.at ?? 0);
    const one = cursors[i];
    if (apart <= 0) one?.complain("times-upside-down", `\`${one.path}\` is not after the height before it`);
    else if (apart > HEIGHTS_APART_AT_MOST_SECONDS)
      one?.complain("gate-heights-apart", `\`${one.path}\` stands ${Math.round(apart / 60)} min after the height before it`);
  }
  complainOfDraught(sill, draughtMetres);
  if (depth === undefined || underKeel === undefined || draughtMetres === null) return null;
  return { kind: "depth", depthMetres: depth, neededMetres: draughtMetres + underKeel, heights };
}

function complainOfDraught(sill: Cursor<unknown>, draughtMetres: number | null): void {
  if (draughtMetres !== null) return;
  const message = `\`${sill.path}\` can't be judged without the boat's draught`;
  sill.complain("missing-key", message, "Add `draught` to the boat, or take the sill out.");
}
