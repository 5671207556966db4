import { dirname } from "node:path";
import { good, type Parsed } from "../core/answers/index.ts";
import { boatModel } from "../core/boat/index.ts";
import { geodesicBetween, type Position } from "../core/earth/index.ts";
import { type Line, lineBetweenPositions } from "../core/passage/index.ts";
import { type Passage, planeOf, sourceFilesOf } from "../core/plan/index.ts";
import { FELT_BY_CURRENT, FELT_OF_SEA } from "../core/window/index.ts";
import type { PassageDocument } from "../formats/passage/index.ts";
import { filesIn, type NamedFiles } from "./named-files.ts";
import { readPassageFile } from "./passage-text.ts";

/** What a passage needs or can use of its sources. */
export type OfferedQuantity = "current" | "wind" | "gust" | "seaHeight" | "seaPeriod";

/** A passage file as far as its sources are held against it; none of the files that it names has been opened. */
export interface PassageNeeds {
  readonly path: string;
  /** The names of files in it are relative to this. */
  readonly folder: string;
  readonly document: PassageDocument;
  readonly passage: Passage;
  readonly line: Line;
  /** From berth to berth in still water and no wind; null where that can't be told, as for a boat that goes under sail alone. */
  readonly takesSeconds: number | null;
  readonly quantities: ReadonlySet<OfferedQuantity>;
  /** The files that it names for water and weather, `*` replaced by what there is. */
  readonly namedFiles: readonly string[];
}

/** Reads a passage file alone, to hold other files against it. */
export async function readPassageNeeds(path: string): Promise<Parsed<PassageNeeds>> {
  const document = await readPassageFile(path);
  if (!document.ok) return document;
  return passageNeeds(document.value, path, filesIn(dirname(path)));
}

/** The same of a passage that has been read; `path` stands for it, and what it names is looked up in `named`. */
export async function passageNeeds(document: PassageDocument, path: string, named: NamedFiles): Promise<Parsed<PassageNeeds>> {
  const { passage } = document;
  const plane = planeOf(passage);
  if (!plane.ok) return plane;
  return good({
    path,
    folder: dirname(path),
    document,
    passage,
    line: lineBetweenPositions(plane.value, passage.from.position, passage.to.position),
    takesSeconds: stillWaterSeconds(passage),
    quantities: neededQuantities(passage),
    namedFiles: await namedFiles(passage, named),
  });
}

async function namedFiles(passage: Passage, named: NamedFiles): Promise<string[]> {
  const names: string[] = [];
  for (const name of sourceFilesOf(passage)) names.push(...((await named.matching(name)) ?? [name]));
  return [...new Set(names)];
}

/** Current and wind always; the rest where a limit is set on it, or a bar asks for it. */
function neededQuantities(passage: Passage): ReadonlySet<OfferedQuantity> {
  const needed = new Set<OfferedQuantity>(["current", "wind"]);
  for (const { felt } of passage.limits) {
    if (felt === "gustMps") needed.add("gust");
    if (felt === "seaHeightMetres") needed.add("seaHeight");
    if (felt === "seaPeriodSeconds") needed.add("seaPeriod");
    if (FELT_BY_CURRENT.has(felt) && FELT_OF_SEA.has(felt)) needed.add("seaHeight").add("seaPeriod");
  }
  const bars = (passage.gates ?? []).some(({ needs }) => needs.some((need) => need.kind === "entrance" && need.entrance.sea !== null));
  if (bars) needed.add("seaHeight");
  return needed;
}

function stillWaterSeconds(passage: Passage): number | null {
  const boat = boatModel(passage.boat);
  if (!boat.ok) return null;
  const moved = { speedThroughWaterMps: 0, leewayDeg: 0, engineOn: false, burnLitresPerHour: 0 };
  boat.value.propelInto(moved, 0, 0, 0, false);
  if (!(moved.speedThroughWaterMps > 0)) return null;
  const legSeconds = (leg: Passage["pilotageOut"], points: readonly Position[]): number =>
    leg === null ? 0 : lengthMetres(points) / leg.speedOverGroundMps;
  const { from, to, pilotageOut, pilotageIn } = passage;
  return (
    legSeconds(pilotageOut, [...(pilotageOut?.points ?? []), from.position]) +
    lengthMetres([from.position, to.position]) / moved.speedThroughWaterMps +
    legSeconds(pilotageIn, [to.position, ...(pilotageIn?.points ?? [])])
  );
}

function lengthMetres(points: readonly Position[]): number {
  return points.slice(1).reduce((sum, point, i) => sum + geodesicBetween(points[i] as Position, point).distanceMetres, 0);
}
