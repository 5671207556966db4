import { readFileSync } from "node:fs";
import type { BoatModel } from "../../src/core/boat/index.ts";
import { flatPlane } from "../../src/core/earth/index.ts";
import { type Crossing, crossingOf, downStreamSideOf, lineBetween, type Way, type WayArrives } from "../../src/core/passage/index.ts";
import {
  analyticCurrent,
  type CurrentSource,
  gaussianJet,
  scaledCurrent,
  sumOfCurrents,
  turningTide,
  uniformCurrent,
} from "../../src/core/water/index.ts";

export const NM = 1852;
export const KN = 1852 / 3600;
export const HOUR = 3600;

interface Bell {
  readonly peakKn: number;
  readonly axisNm: number;
  readonly widthNm: number;
}
interface Period {
  readonly periodHours: number;
}
export type Field =
  | { readonly kind: "uniform"; readonly eastKn: number; readonly northKn: number }
  | ({ readonly kind: "gaussian" } & Bell)
  | {
      readonly kind: "gaussianSplit";
      readonly peakKn: number;
      readonly axisNm: number;
      readonly widthBeforeNm: number;
      readonly widthAfterNm: number;
    }
  | ({ readonly kind: "uniformTide"; readonly peakKn: number } & Period)
  | ({ readonly kind: "gaussianTide" } & Bell & Period)
  | ({ readonly kind: "rotating"; readonly eastKn: number; readonly northKn: number } & Period)
  | { readonly kind: "jetPlusTide"; readonly jet: Bell; readonly tide: Bell & Period };

export interface Figures {
  readonly durationHours: number;
  readonly throughWaterNm: number;
  readonly overGroundNm: number;
  readonly offLineNm: { readonly min: number; readonly max: number };
}
export interface Turned {
  readonly turnAfterHours: number;
  readonly offLineAtTurnNm: number;
  readonly thenHoldTrack: Figures;
  readonly thenOneHeading: Figures & { readonly headingDegTrue: number };
}
type Answered<More> = { readonly answered: true } & Figures & More;

/** One case of references/ways.json. */
export interface Case {
  readonly id: string;
  readonly field: Field;
  readonly boatKn: number;
  readonly to: readonly [number, number];
  readonly t0h: number;
  readonly turnAtNm?: number;
  readonly clearOfStreamAtXNm?: number;
  readonly ways: {
    readonly oneHeading?:
      | Answered<{
          readonly headingDegTrue: number;
          readonly headingsThatReach: readonly { readonly headingDegTrue: number; readonly durationHours: number }[];
        }>
      | { readonly answered: false };
    readonly holdTrack?: Answered<object> | { readonly answered: false; readonly firstAlongNm: number; readonly lastAlongNm: number };
    readonly bowOnDestination: Answered<object> | { readonly answered: false; readonly stallsAtXY?: readonly [number, number] };
    readonly acrossThenTurn?: { readonly x: Turned };
    readonly fastest?: { readonly durationHours: number };
  };
  readonly orderKept?: readonly (Figures & {
    readonly strength: number;
    readonly keptUntil: string;
    readonly offLineAtClearNm: number;
    readonly addedHours: number;
  })[];
  readonly reAim?: readonly {
    readonly fromXY: readonly [number, number];
    readonly offPathNorthNm: number;
    readonly afterHours: number;
    readonly strength: number;
    readonly headingDegTrue: number;
    readonly remainingHours: number;
  }[];
}

/** Reference values worked out with scipy by make_ways.py beside them; how is told in the file's `made` part. */
export const CASES: readonly Case[] = JSON.parse(readFileSync(new URL("./references/ways.json", import.meta.url), "utf8")).cases;

/** A boat under power at one speed in any wind. */
export function powerBoat(knots: number): BoatModel {
  return {
    dependsOnWind: false,
    propelInto(out) {
      out.speedThroughWaterMps = knots * KN;
      out.leewayDeg = 0;
      out.engineOn = true;
      out.burnLitresPerHour = 0;
    },
  };
}

export const FLAT = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 600 * NM);

const jetOf = (bell: Bell): CurrentSource =>
  gaussianJet({ rateMps: bell.peakKn * KN, axisMetres: bell.axisNm * NM, halfWidthMetres: bell.widthNm * NM });
const tideOf = (peakKn: number, periodHours: number, bell?: Bell): CurrentSource =>
  turningTide({
    rateMps: peakKn * KN,
    periodSeconds: periodHours * HOUR,
    epochAt: 0,
    ...(bell === undefined ? {} : { bell: { axisMetres: bell.axisNm * NM, halfWidthMetres: bell.widthNm * NM } }),
  });

export function currentOf(field: Field): CurrentSource {
  if (field.kind === "uniform") {
    return uniformCurrent((Math.atan2(field.eastKn, field.northKn) * 180) / Math.PI, Math.hypot(field.eastKn, field.northKn) * KN);
  }
  if (field.kind === "gaussian") return jetOf(field);
  if (field.kind === "gaussianSplit") {
    return gaussianJet({
      rateMps: field.peakKn * KN,
      axisMetres: field.axisNm * NM,
      halfWidthMetres: field.widthBeforeNm * NM,
      halfWidthEastMetres: field.widthAfterNm * NM,
    });
  }
  if (field.kind === "uniformTide") return tideOf(field.peakKn, field.periodHours);
  if (field.kind === "gaussianTide") return tideOf(field.peakKn, field.periodHours, field);
  if (field.kind === "jetPlusTide") return sumOfCurrents([jetOf(field.jet), tideOf(field.tide.peakKn, field.tide.periodHours, field.tide)]);
  return analyticCurrent("rotating stream", (out, _x, _y, at) => {
    const turn = (2 * Math.PI * at) / (field.periodHours * HOUR);
    out[0] = field.eastKn * KN * Math.cos(turn);
    out[1] = field.northKn * KN * Math.sin(turn);
  });
}

/** A crossing from the origin to `to`, nm east and north. */
export function crossingTo(
  to: readonly [number, number],
  boatKn: number,
  current: CurrentSource,
  stepSeconds: number,
  strength = 1,
): Crossing {
  const sampler = current.onPlane(FLAT);
  const around = {
    plane: FLAT,
    current: strength === 1 ? sampler : scaledCurrent(sampler, strength),
    currentCovers: current.covers,
    wind: null,
    windCovers: null,
  };
  return crossingOf(lineBetween(FLAT, 0, 0, to[0] * NM, to[1] * NM), around, powerBoat(boatKn), stepSeconds);
}

export const crossingFor = (one: Case, stepSeconds: number): Crossing => crossingTo(one.to, one.boatKn, currentOf(one.field), stepSeconds);

export function caseOf(id: string): Case {
  const found = CASES.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no reference case ${id}`);
  return found;
}

export function arriving(way: Way): WayArrives {
  if (way.kind === "fails") throw new Error(`${way.name} fails: ${way.why.code}`);
  return way;
}

export const hoursOf = (way: WayArrives): number => (way.arrivalAt - way.departAt) / HOUR;

/** Least and greatest distance off the line, nm, starboard positive, the start included. */
export function offLineNm(crossing: Crossing, way: WayArrives): { readonly min: number; readonly max: number } {
  const side = downStreamSideOf(way.track, crossing.line);
  const [starboard, port] = side === 1 ? [way.downStreamMetres, way.upStreamMetres] : [way.upStreamMetres, way.downStreamMetres];
  return { min: -port / NM, max: starboard / NM };
}

export const headingOf = (way: WayArrives, order = 0): number => {
  const steer = way.orders[order]?.steer;
  if (steer?.kind !== "heading") throw new Error(`${way.name} has no heading in order ${order}`);
  return steer.headingDegTrue;
};

export const whyOf = (way: Way) => {
  if (way.kind === "arrives") throw new Error(`${way.name} arrives`);
  return way.why;
};

/** The lesser angle between two bearings, degrees. */
export const turn = (from: number, to: number): number => Math.abs(((to - from + 540) % 360) - 180);
