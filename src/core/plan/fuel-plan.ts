import type { NoAnswer } from "../answers/index.ts";
import { enginePower, fuelForSeconds, RESERVE_BY_THIRDS } from "../boat/index.ts";
import type { Position } from "../earth/index.ts";
import { alongOf, type Crossing, nodeAt, placeAt, RunsTo, type Surroundings, type Track, type WayArrives } from "../passage/index.ts";
import { degFromRad, wrap360Deg } from "../units/index.ts";
import type { WindSampler } from "../weather/index.ts";
import { harbourSeconds, type Trial } from "../window/index.ts";
import type { Prepared } from "./prepare.ts";
import { hoursOf, REFUGES_EVERY_SECONDS } from "./refuges/hours-of.ts";
import { runningBoats } from "./refuges/sail-alone.ts";

/** A place of the way at one instant. */
interface OnTheWay {
  readonly at: number;
  readonly where: Position;
  readonly acrossMetres: number;
}

/** Turning back at one hour: litres burnt from the berth to there and back to the berth again. */
export interface TurningBack extends OnTheWay {
  /** From there to where open water began. */
  readonly backSeconds: number;
  readonly allLitres: number;
}

/** What becomes of the boat when her engine stops for good at one hour. */
export interface EngineFailure extends OnTheWay {
  readonly outcome: /** Later than with the engine by so much; negative: earlier. */
    | { readonly kind: "sails"; readonly arrivalAt: number; readonly lateSeconds: number }
    | { readonly kind: "noWay"; readonly why: NoAnswer }
    /** Without sails she goes with the water. */
    | { readonly kind: "drifts"; readonly setDegTrue: number; readonly rateMps: number };
}

/** Fuel for one departure, the legs in and out of harbour with the engine on. Null where it is not stated. */
export interface FuelPlan {
  readonly engineSeconds: number;
  readonly burntLitres: number | null;
  readonly usableLitres: number | null;
  /** Of the usable fuel, the share that is not to be burnt. */
  readonly reserveShare: number;
  /** The hour at which turning back costs most in all, of those at which it is quicker than going on; null where there is none. */
  readonly worstTurnBack: TurningBack | null;
  /** One an hour; none for a boat that never uses an engine. */
  readonly engineFails: readonly EngineFailure[];
}

/** The fuel of an advised way and what else hangs on the engine; null for a boat that never uses one. */
export function fuelPlan(prepared: Prepared, trial: Trial, advised: WayArrives, wind: WindSampler): FuelPlan | null {
  const { crossing } = trial;
  const { boat } = prepared.passage;
  if (crossing.engineStopped === null) return null;
  const burn = boat.power === null ? null : (enginePower(boat.power, boat.waterlineLengthMetres)?.burnLitresPerHour ?? null);
  const harbour = harbourSeconds(trial);
  const harbourLitres = burn === null ? null : fuelForSeconds(burn, harbour.out + harbour.into);
  const around: Surroundings = { ...crossing.around, wind, windCovers: prepared.weather.wind.covers };
  const times = hoursOf(advised.departAt, advised.arrivalAt, REFUGES_EVERY_SECONDS, prepared.passage.shipZone);
  const outLitres = burn === null ? null : fuelForSeconds(burn, harbour.out);
  return {
    engineSeconds: advised.engineSeconds + harbour.out + harbour.into,
    burntLitres: harbourLitres === null ? null : harbourLitres + advised.fuelLitres,
    usableLitres: boat.power?.usableFuelLitres ?? null,
    reserveShare: boat.power?.reserveShare ?? RESERVE_BY_THIRDS,
    worstTurnBack: outLitres === null ? null : worstTurnBack(prepared, crossing, around, advised, times, outLitres),
    engineFails: engineFailures(prepared, crossing, around, advised, times),
  };
}

function worstTurnBack(
  prepared: Prepared,
  crossing: Crossing,
  around: Surroundings,
  { track, arrivalAt }: WayArrives,
  times: readonly number[],
  outLitres: number,
): TurningBack | null {
  const { withEngine } = runningBoats(prepared.passage.boat);
  if (withEngine === null) return null;
  const { line } = crossing;
  const runs = new RunsTo(
    crossing,
    withEngine,
    { xMetres: line.fromX, yMetres: line.fromY },
    withEngine.dependsOnWind ? around : crossing.around,
  );
  let worst: TurningBack | null = null;
  for (const at of times) {
    const place = onTheWay(track, crossing, at);
    const back = runs.from(place.xMetres, place.yMetres, at);
    if (back.kind === "fails" || back.arrivalAt > arrivalAt) continue;
    // The leg into the harbour that was left is as long as the one out of it.
    const allLitres = 2 * outLitres + litresUntil(track, at) + back.fuelLitres;
    if (worst === null || allLitres > worst.allLitres) worst = { ...place, backSeconds: back.arrivalAt - at, allLitres };
  }
  return worst;
}

function engineFailures(
  prepared: Prepared,
  crossing: Crossing,
  around: Surroundings,
  { track, arrivalAt }: WayArrives,
  times: readonly number[],
): readonly EngineFailure[] {
  const { underSail } = runningBoats(prepared.passage.boat);
  const { line } = crossing;
  const runs = underSail === null ? null : new RunsTo(crossing, underSail, { xMetres: line.toX, yMetres: line.toY }, around, false);
  return times.map((at): EngineFailure => {
    const { xMetres, yMetres, ...place } = onTheWay(track, crossing, at);
    if (runs === null) return { ...place, outcome: { kind: "drifts", ...driftAt(track, crossing, at) } };
    const run = runs.from(xMetres, yMetres, at);
    return {
      ...place,
      outcome:
        run.kind === "fails"
          ? { kind: "noWay", why: run.why }
          : { kind: "sails", arrivalAt: run.arrivalAt, lateSeconds: run.arrivalAt - arrivalAt },
    };
  });
}

function onTheWay(track: Track, { line }: Crossing, at: number): OnTheWay & { readonly xMetres: number; readonly yMetres: number } {
  const { xMetres, yMetres } = placeAt(track, at);
  return { at, where: line.plane.toPosition(xMetres, yMetres), acrossMetres: alongOf(line, xMetres, yMetres), xMetres, yMetres };
}

/** With the water, as it sets there and then; the wind on the hull is not reckoned. */
function driftAt(track: Track, { line }: Crossing, at: number): { readonly setDegTrue: number; readonly rateMps: number } {
  const node = nodeAt(track, at);
  const [east, north] = [track.currentEastMps[node] as number, track.currentNorthMps[node] as number];
  const convergenceDeg = line.plane.convergenceDegAt(track.xMetres[node] as number, track.yMetres[node] as number);
  return { setDegTrue: wrap360Deg(degFromRad(Math.atan2(east, north)) + convergenceDeg), rateMps: Math.hypot(east, north) };
}

/** Burnt in open water by an instant. */
function litresUntil(track: Track, at: number): number {
  let litres = 0;
  for (let i = 0; i < track.count && (track.atSeconds[i] as number) < at; i++) {
    const until = Math.min(at, i + 1 < track.count ? (track.atSeconds[i + 1] as number) : at);
    litres += fuelForSeconds(track.burnLitresPerHour[i] as number, until - (track.atSeconds[i] as number));
  }
  return litres;
}
