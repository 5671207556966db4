import type { SectionTold } from "../../api/index.ts";
import { around, type Point } from "../svg/box.ts";
import { drawDot } from "../svg/path.ts";
import { barbStrokes, CALM_BELOW_KN } from "./barb.ts";
import { type Beside, type Ground, inFrame, linesAbout, type StripBox, stripRoom } from "./ground.ts";
import { compassPoint } from "./words.ts";

type Wind = SectionTold["wind"][number];

/** Barbs stand no nearer than this, in lengths of a shaft. */
const APART_SHAFTS = 1.25;
/** Winds whose words would be read as the same. */
const sameWords = (a: Wind, b: Wind): boolean => windWords(a) === windWords(b);

/** Winds along the order as WMO barbs, turned as the plan is; the strongest, the one in mid-stream, the first and the last in figures. */
export function drawWind(ground: Ground, strip: StripBox): string {
  const { section, map, measures, labels } = ground;
  const shaft = measures.barbPx;
  const row = strip.top + shaftsReach(ground).up;
  const shown: Wind[] = [];
  const strongest = section.wind.reduce<Wind | null>(
    (most, each) => (most === null || strength(each) > strength(most) ? each : most),
    null,
  );
  const ends = [strongest, section.wind[0], section.wind.at(-1)].filter((each): each is Wind => each !== null && each !== undefined);
  const middle = windAgainst(ground);
  // The strongest first: its gusts must not want for room.
  const all = middle === null ? ends : [...ends.slice(0, 1), middle.wind, ...ends.slice(1)];
  for (const each of [...all, ...section.wind]) {
    if (!inFrame(ground, each.acrossNm)) continue;
    if (!shown.some((other) => Math.abs(map.x(other.acrossNm) - map.x(each.acrossNm)) < shaft * APART_SHAFTS)) shown.push(each);
  }
  let svg = "";
  for (const { acrossNm, fromDegTrue, kn } of shown) {
    const at: Point = [map.x(acrossNm), row];
    labels.keepOff(around(at, 2.5));
    svg += drawDot(at, shaft * 0.075, "section-station");
    if (fromDegTrue === null || kn < CALM_BELOW_KN) {
      svg += drawDot(at, shaft * 0.22, "section-calm");
      labels.keepOff(around(at, shaft * 0.24));
      continue;
    }
    const { strokes, pennants } = barbStrokes(at, map.step(fromDegTrue), kn, shaft, section.southern);
    svg += `<path class="section-barb" d="${strokes}"/>${pennants === "" ? "" : `<path class="section-pennant" d="${pennants}"/>`}`;
    const [ux, uy] = map.step(fromDegTrue);
    labels.avoid([at, [at[0] + ux * shaft, at[1] + uy * shaft]]);
    labels.avoid([at, [at[0] + ux * shaft * 0.8 - uy * 5, at[1] + uy * shaft * 0.8 + ux * 5]]);
  }
  const room = stripRoom(ground, strip);
  const base = strip.bottom - row;
  const told: Wind[] = [];
  for (const each of all) {
    if (told.some((other) => sameWords(other, each))) continue;
    told.push(each);
    const beside: Beside[] = [
      [0, base, "middle"],
      [-shaft * 0.15, base, "start"],
      [shaft * 0.15, base, "end"],
      [shaft, base, "start"],
      [-shaft, base, "end"],
    ];
    const words = each === middle?.wind ? middle.words : [];
    labels.set(linesAbout(ground, "value", [...words, windWords(each), shortWords(each)], [map.x(each.acrossNm), row], beside), room);
  }
  return svg;
}

/** In a stream weaker than this it matters little whether the wind blows with it or against it: "clear of the stream" begins here too. */
const STREAM_FROM_KN = 0.5;

/** The wind in mid-stream, and how much of it blows against the stream or with it: the part along the set, whatever the angle. */
function windAgainst({ section }: Ground): { wind: Wind; words: string[] } | null {
  const nearest = <T>(rows: readonly T[], across: (row: T) => number, to: number): T | null =>
    rows.reduce<T | null>((best, row) => (best === null || Math.abs(across(row) - to) < Math.abs(across(best) - to) ? row : best), null);
  const wind = nearest(section.wind, ({ acrossNm }) => acrossNm, section.axis.acrossNm);
  const stream = wind === null ? null : nearest(section.rate.points, ([acrossNm]) => acrossNm, wind.acrossNm);
  if (wind === null || stream === null || wind.fromDegTrue === null || wind.kn < CALM_BELOW_KN || stream[1] < STREAM_FROM_KN) return null;
  const against = wind.kn * Math.cos(((wind.fromDegTrue - stream[2]) * Math.PI) / 180);
  const kn = Math.round(Math.abs(against));
  const how = kn === 0 ? "square to the stream" : `${kn} ${against > 0 ? "against" : "with"} the stream`;
  return { wind, words: [`${windWords(wind)}: ${how}`, `${shortWords(wind)}: ${how}`] };
}

/** How far up and down from their row the shafts reach, pixels. */
function shaftsReach({ section, map, measures }: Ground): { up: number; down: number } {
  const downs = section.wind.map(({ fromDegTrue }) => (fromDegTrue === null ? 0 : map.step(fromDegTrue)[1]));
  const least = measures.barbPx * 0.3;
  return {
    up: least + measures.barbPx * Math.max(0, ...downs.map((down) => -down)),
    down: least + measures.barbPx * Math.max(0, ...downs),
  };
}

/** The strip is as high as its barbs and a line of words. */
export function windHeightPx(ground: Ground): number {
  const { up, down } = shaftsReach(ground);
  return up + down + ground.measures.sizes.value * 1.15;
}

const strength = ({ kn, gustKn }: Wind): number => Math.max(kn, gustKn ?? 0);

function shortWords({ fromDegTrue, kn }: Wind): string {
  return fromDegTrue === null || kn < CALM_BELOW_KN ? "calm" : `${compassPoint(fromDegTrue)} ${Math.round(kn)}`;
}

/** `NNE 12, gusts 19`; `calm`. */
export function windWords(wind: Wind): string {
  const { gustKn, kn } = wind;
  return gustKn !== null && Math.round(gustKn) > Math.round(kn) ? `${shortWords(wind)}, gusts ${Math.round(gustKn)}` : shortWords(wind);
}
