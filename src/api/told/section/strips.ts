import { lightAt } from "../../../core/earth/index.ts";
import { COVERED } from "../../../core/fields/index.ts";
import { placeAt, rateAtNode, type Track, type WayArrives } from "../../../core/passage/index.ts";
import { type CrossAnswer, forTheHelm, type SteeringCompass } from "../../../core/plan/index.ts";
import { epochSeconds, knotsFromMps, turnDeg, wrap360Deg } from "../../../core/units/index.ts";
import { middleOf, WIND_GUST_MPS, WIND_SLOTS } from "../../../core/weather/index.ts";
import { clock, dayAndClock } from "../../../words/index.ts";
import { LIGHTS } from "../board-sky.ts";
import type { SectionTold } from "../section-told.ts";
import { type AcrossAxes, tidy } from "./across.ts";

/** Strips that vary along the way are read so often, seconds. */
const EVERY_SECONDS = 600;

/** The instants at which strips are read: from end to end of a track, evenly, both ends included. */
export function readAt({ departAt, arrivalAt }: WayArrives): readonly number[] {
  const many = Math.max(1, Math.ceil((arrivalAt - departAt) / EVERY_SECONDS));
  return Array.from({ length: many + 1 }, (_, i) => departAt + ((arrivalAt - departAt) * i) / many);
}

/** Rate and set along the order, `[miles across, knots, toward]`. */
export function rateToldOf(axes: AcrossAxes, track: Track): SectionTold["rate"] {
  const points: [number, number, number][] = [];
  for (let i = 0; i < track.count; i++) {
    const [x, y] = [track.xMetres[i] as number, track.yMetres[i] as number];
    const across = axes.acrossNm(x, y);
    if (i > 0 && i < track.count - 1 && Math.abs(across - (points.at(-1)?.[0] ?? -1)) < 0.05) continue;
    const sheetDeg = (Math.atan2(track.currentEastMps[i] as number, track.currentNorthMps[i] as number) * 180) / Math.PI;
    const toward = Math.round(wrap360Deg(sheetDeg + track.plane.convergenceDegAt(x, y))) % 360;
    points.push([across, tidy(knotsFromMps(rateAtNode(track, i))), toward]);
  }
  return { points };
}

/** A heading that changes by more than this from one node to the next is turned to at once. */
const WHEEL_TURN_DEG = 2;

/** Headings steered and courses over the ground along the order, by the helm's north. */
export function headingToldOf(
  { prepared }: CrossAnswer,
  axes: AcrossAxes,
  compass: SteeringCompass,
  track: Track,
): Pick<SectionTold["heading"], "steered" | "overGround" | "overGroundDegTrue"> {
  const helm = (degTrue: number): number => tidy(forTheHelm(prepared, compass, degTrue)?.headingDegCompass ?? degTrue, 1);
  const steered: [number, number][] = [];
  const overGround: [number, number][] = [];
  const overGroundDegTrue: number[] = [];
  for (let i = 0; i + 1 < track.count; i++) {
    const [x, y] = [track.xMetres[i] as number, track.yMetres[i] as number];
    const dx = (track.xMetres[i + 1] as number) - x;
    const dy = (track.yMetres[i + 1] as number) - y;
    const across = axes.acrossNm(x, y);
    const until = axes.acrossNm(track.xMetres[i + 1] as number, track.yMetres[i + 1] as number);
    const steer = helm(track.headingDegTrue[i] as number);
    const before = steered.at(-1)?.[1];
    // A turn of the wheel is a step; a heading that changes little by little is a curve.
    if (before !== undefined && Math.abs(turnDeg(before, steer)) > WHEEL_TURN_DEG) steered.push([across, before]);
    if (before !== steer) steered.push([across, steer]);
    if (i + 2 === track.count) steered.push([until, steer]);
    if (Math.hypot(dx, dy) < 1) continue;
    const course = wrap360Deg((Math.atan2(dx, dy) * 180) / Math.PI + track.plane.convergenceDegAt(x, y));
    overGround.push([across, helm(course)]);
    overGroundDegTrue.push(tidy(course, 1));
    if (i + 2 === track.count) {
      overGround.push([until, helm(course)]);
      overGroundDegTrue.push(tidy(course, 1));
    }
  }
  return { steered, overGround, overGroundDegTrue };
}

/** The wind at each of some instants: the middle of what is foretold, and its gust. */
export function windToldOf(answer: CrossAnswer, axes: AcrossAxes, way: WayArrives, instants: readonly number[]): SectionTold["wind"] {
  const { prepared } = answer;
  const zone = prepared.passage.shipZone;
  const sampler = prepared.weather.wind.onPlane(prepared.plane, 0, { from: answer.departAt, until: way.arrivalAt });
  const out = new Float64Array(WIND_SLOTS);
  return instants.flatMap((at) => {
    const { xMetres, yMetres } = placeAt(way.track, at);
    if (sampler.readInto(out, xMetres, yMetres, at) !== COVERED) return [];
    const { speedMps, fromDegTrue } = middleOf(out);
    return [
      {
        acrossNm: axes.acrossNm(xMetres, yMetres),
        clock: clock(at, zone),
        fromDegTrue: fromDegTrue === null ? null : tidy(fromDegTrue, 0) % 360,
        kn: tidy(knotsFromMps(speedMps), 1),
        gustKn: tidy(knotsFromMps(out[WIND_GUST_MPS] as number), 1),
      },
    ];
  });
}

/** Night, twilight and day along the order, and when the sun comes up or goes down on the way. */
export function lightToldOf({ prepared }: CrossAnswer, axes: AcrossAxes, way: WayArrives): Pick<SectionTold, "light" | "lightWords"> {
  const zone = prepared.passage.shipZone;
  const light: SectionTold["light"] = [];
  const lightWords: SectionTold["lightWords"] = [];
  const minutes = Math.max(1, Math.ceil((way.arrivalAt - way.departAt) / 120));
  for (let i = 0; i <= minutes; i++) {
    const at = way.departAt + ((way.arrivalAt - way.departAt) * i) / minutes;
    const { xMetres, yMetres } = placeAt(way.track, at);
    const acrossNm = axes.acrossNm(xMetres, yMetres);
    const now = LIGHTS[lightAt(epochSeconds(at), prepared.plane.toPosition(xMetres, yMetres))];
    const last = light.at(-1);
    if (last !== undefined) last.untilNm = acrossNm;
    if (last?.light === now) continue;
    if (last !== undefined && (now === "day" || last.light === "day"))
      lightWords.push({ acrossNm, words: `sun ${now === "day" ? "up" : "down"} ${dayAndClock(at, zone)}` });
    light.push({ fromNm: acrossNm, untilNm: acrossNm, light: now });
  }
  return { light, lightWords };
}
