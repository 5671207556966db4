import type { Parsed } from "../../core/answers/index.ts";
import type { Position } from "../../core/earth/index.ts";
import type { LoneWaterSource, Passage, WaterSource, WhereCurrentUnknown } from "../../core/plan/index.ts";
import { mpsFromKnots, nearestWord, parseBearing, parseLength, parsePosition, parseSpeed } from "../../core/units/index.ts";
import { type Clock, readStretch } from "./clock.ts";
import type { Cursor } from "./cursor.ts";
import { parseWhereUnknown } from "./quantities.ts";
import { readFiles } from "./read-files.ts";
import { FARTHEST_STREAM_NM, milesBetween } from "./read-route.ts";
import type { PassageData } from "./schema.ts";

type Water = PassageData["water"];
type Source = Water["sources"][number];
type Lone = NonNullable<Source["sum"]>[number];
type Sketch = NonNullable<Source["sketch"]>;

/** Where no source says what the water does and the file says nothing either. */
export const WHERE_UNKNOWN_IF_LEFT_OUT: WhereCurrentUnknown = { kind: "refuse" };
/** No current that a small boat crosses runs faster; more is a slip of the unit. Common practice. */
export const FASTEST_CURRENT_MPS: number = mpsFromKnots(20);

export type ReadWater = Pick<Passage, "whereCurrentUnknown" | "waterSources">;

const rate = (text: string, path: string): Parsed<number> => parseSpeed(text, path, { min: 0, max: FASTEST_CURRENT_MPS });
const bearing = (text: string, path: string): Parsed<number> => parseBearing(text, path);

/**
 * Where the current comes from, SI; issues are put on the cursor's page. `near` is an end of the route, to hold sketches against; `streams`
 * are the names of the passage's tidal streams.
 */
export function readWater(water: Cursor<Water>, clock: Clock, near: Position | undefined, streams: readonly string[]): ReadWater {
  const whereCurrentUnknown = water.at("whereUnknown").read(parseWhereUnknown) ?? WHERE_UNKNOWN_IF_LEFT_OUT;
  const sources = water
    .at("sources")
    .items()
    .map((source) => readSource(source, { clock, near, streams }));
  return { whereCurrentUnknown, waterSources: sources.filter((source) => source !== undefined) };
}

const LONE_KEYS = ["file", "files", "sketch", "uniform", "streams"] as const;

/** What a source is read by. */
interface Around {
  readonly clock: Clock;
  readonly near: Position | undefined;
  readonly streams: readonly string[];
}

function readSource(source: Cursor<Source>, around: Around): WaterSource | undefined {
  source.needsOneOf([...LONE_KEYS, "sum"]);
  if (!source.at("sum").isGiven) return readLone(source, around);
  const parts = source.at("sum").items();
  const whole = parts.flatMap((part) => {
    part.needsOneOf(LONE_KEYS);
    return readLone(part, around) ?? [];
  });
  return whole.length < parts.length ? undefined : { kind: "sum", parts: whole };
}

function readLone(source: Cursor<Lone>, { clock, near, streams }: Around): LoneWaterSource | undefined {
  switch (LONE_KEYS.find((key) => source.at(key).isGiven)) {
    case "file":
    case "files":
      return readFiles(source);
    case "sketch":
      return readSketch(source.at("sketch"), clock, near);
    case "uniform": {
      const setDegTrue = source.at("uniform").at("set").read(bearing);
      const rateMps = source.at("uniform").at("rate").read(rate);
      return setDegTrue === undefined || rateMps === undefined ? undefined : { kind: "uniform", setDegTrue, rateMps };
    }
    case "streams":
      return readStreamNames(source.at("streams"), streams);
    default:
      return undefined;
  }
}

/** `all` alone, or names of the passage's streams. */
function readStreamNames(list: Cursor<NonNullable<Lone["streams"]>>, known: readonly string[]): LoneWaterSource | undefined {
  const items = list.items();
  const names = items.flatMap((item) => item.text() ?? []);
  if (names.length < items.length || names.length === 0) return undefined;
  if (names.length === 1 && names[0] === "all" && !known.includes("all")) {
    if (known.length > 0) return { kind: "streams", names: null };
    list.complain("name-unknown", `\`${list.path}\` names all streams, and the passage has none`, "Add `streams` to the passage.");
    return undefined;
  }
  items.forEach((item, i) => {
    const name = names[i] as string;
    if (known.includes(name)) return;
    const near = nearestWord(name, known);
    item.complain("name-unknown", `“${name.slice(0, 40)}” is none of \`streams\`${near === null ? "" : `; did you mean ${near}?`}`);
  });
  return { kind: "streams", names };
}

function readSketch(sketch: Cursor<Sketch>, clock: Clock, near: Position | undefined): LoneWaterSource | undefined {
  const at = sketch.at("at").read(parsePosition);
  if (at !== undefined && near !== undefined && milesBetween(at, near) > FARTHEST_STREAM_NM) {
    sketch
      .at("at")
      .complain(
        "place-far-off",
        `this place lies ${Math.round(milesBetween(at, near))} nm from the route; a stream's axis up to ${FARTHEST_STREAM_NM} nm off is read`,
      );
  }
  const axisTowardDegTrue = sketch.at("axis").read(bearing);
  const { from, until } = readStretch({ from: sketch.at("from"), until: sketch.at("until") }, clock);
  const section = readSection(sketch.at("section"));
  if (at === undefined || axisTowardDegTrue === undefined || section === undefined) return undefined;
  const name = sketch.at("name").text() ?? "sketched stream";
  return { kind: "sketch", sketch: { name, at, axisTowardDegTrue, from: from ?? null, until: until ?? null, section } };
}

type SectionPoint = Extract<LoneWaterSource, { kind: "sketch" }>["sketch"]["section"][number];

function readSection(section: Cursor<Sketch["section"]>): readonly SectionPoint[] | undefined {
  const points = section.items();
  const read: SectionPoint[] = [];
  let last: { readonly acrossMetres: number; readonly typed: string } | null = null;
  for (const point of points) {
    const across = point.at("across");
    const acrossMetres = across.read((text, path) => parseLength(text, path));
    const rateMps = point.at("rate").read(rate);
    const setDegTrue = point.at("set").read(bearing) ?? null;
    if (acrossMetres !== undefined) {
      if (last !== null && acrossMetres <= last.acrossMetres) {
        across.complain(
          "section-not-ascending",
          `“${String(across.value)}” does not lie to the right of “${last.typed}” before it; the section runs from left to right`,
        );
      }
      last = { acrossMetres, typed: String(across.value) };
    }
    if (acrossMetres !== undefined && rateMps !== undefined) read.push({ acrossMetres, rateMps, setDegTrue });
  }
  return read.length === points.length && read.length > 0 ? read : undefined;
}
