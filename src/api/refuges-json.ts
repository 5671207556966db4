import type { RunThere } from "../core/passage/index.ts";
import {
  FUEL_KEPT_SHARE,
  forTheHelm,
  type RefugeHour,
  type RefugeRun,
  type RefugesAnswer,
  type RefugeToTry,
  type StruckOut,
  steeringCompass,
  type WaitOff,
} from "../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";
import { passageJson } from "./passage-json.ts";

const nm = (metres: number): number => rounded(nmFromMetres(metres), 3);
const orNull = (value: number | null, decimals: number): number | null => (value === null ? null : rounded(value, decimals));
const kn = (mps: number | null): number | null => orNull(mps === null ? null : knotsFromMps(mps), 2);

/** Where to run to, hour by hour, as JSON, `athwart.refuges/1`. */
export function refugesJson(answer: RefugesAnswer) {
  const { prepared, way, why, turnBack } = answer;
  const compass = steeringCompass(prepared, answer.openWaterFrom);
  const heading = (degTrue: number) => {
    const helm = forTheHelm(prepared, compass, degTrue);
    return { headingDegTrue: rounded(degTrue, 2), headingDegCompass: helm === null ? null : rounded(helm.headingDegCompass, 2) };
  };
  const orders = (run: RunThere) =>
    run.kind === "fails"
      ? []
      : run.orders.map(({ fromAt, steer }) => ({
          fromAt: iso(fromAt),
          steer:
            steer.kind === "heading"
              ? { kind: steer.kind, ...heading(steer.headingDegTrue) }
              : steer.kind === "holdTrack"
                ? { kind: steer.kind, trackDegTrue: rounded(steer.trackDegTrue, 2) }
                : steer,
        }));
  const there = (one: RefugeRun) => ({
    name: one.refuge.name,
    canEnter: one.verdict === "enter" ? "yes" : one.verdict === "struckOut" ? "no" : "notJudged",
    distanceNm: nm(one.distanceMetres),
    by: one.run.kind === "arrives" ? one.run.by : null,
    orders: orders(one.run),
    takesSeconds: one.run.kind === "arrives" ? rounded(one.run.arrivalAt - one.run.departAt, 1) : null,
    arrivalAt: one.run.kind === "arrives" ? iso(one.run.arrivalAt) : null,
    berthAt: isoOrNull(one.berthAt),
    fuelLeftLitres: orNull(one.fuelLeftLitres, 1),
    why: one.run.kind === "fails" ? noAnswerJson(one.run.why) : null,
    struckOutBy: one.struckOut.map(struckOutJson),
  });
  const hour = (one: RefugeHour) => ({
    at: iso(one.at),
    latitudeDeg: rounded(one.where.latitudeDeg, 5),
    longitudeDeg: rounded(one.where.longitudeDeg, 5),
    acrossNm: nm(one.acrossMetres),
    offLineNm: nm(one.offMetres),
    fuelUsedLitres: orNull(one.fuelUsedLitres, 1),
    soonest: one.runs[0]?.[0]?.verdict === "enter" ? one.runs[0][0].refuge.name : null,
    wait: waitJson(one.wait),
    runs: answer.running.map((running, k) => ({ running, refuges: (one.runs[k] ?? []).map(there) })),
  });
  return {
    schema: "athwart.refuges/1" as const,
    passage: passageJson(prepared),
    departAt: iso(answer.departAt),
    openWaterFrom: iso(answer.openWaterFrom),
    way: way?.name ?? null,
    openWaterUntil: way === null ? null : iso(way.arrivalAt),
    why: why === null ? null : noAnswerJson(why),
    running: answer.running,
    fuelKeptShare: FUEL_KEPT_SHARE,
    refuges: answer.refuges.map(refugeJson),
    turnBack:
      turnBack === null
        ? null
        : {
            lastAt: isoOrNull(turnBack.lastAt),
            ...(({ latitudeDeg, longitudeDeg }) => ({ latitudeDeg: rounded(latitudeDeg, 5), longitudeDeg: rounded(longitudeDeg, 5) }))(
              prepared.plane.toPosition(turnBack.xMetres, turnBack.yMetres),
            ),
            backSeconds: rounded(turnBack.backSeconds, 1),
            onSeconds: rounded(turnBack.onSeconds, 1),
            thenWhy: turnBack.thenWhy === null ? null : noAnswerJson(turnBack.thenWhy),
          },
    hours: answer.hours.map(hour),
  };
}

function refugeJson({ name, position, zone, role, entrance, pilotageSeconds, notes }: RefugeToTry) {
  return {
    name,
    role,
    latitudeDeg: rounded(position.latitudeDeg, 6),
    longitudeDeg: rounded(position.longitudeDeg, 6),
    zone,
    sunAboveDeg: entrance.sunAboveDeg,
    neverWindKn: kn(entrance.neverWindMps),
    neverGustKn: kn(entrance.neverGustMps),
    neverSeaMetres: orNull(entrance.neverSeaMetres, 2),
    chartedDepthMetres: orNull(entrance.chartedDepthMetres, 2),
    underKeelMetres: entrance.chartedDepthMetres === null ? null : rounded(entrance.underKeelMetres, 2),
    pilotageSeconds: orNull(pilotageSeconds, 0),
    notes,
  };
}

function struckOutJson(one: StruckOut) {
  switch (one.kind) {
    case "dark":
      return { kind: one.kind, from: one.from, firstLightAt: isoOrNull(one.firstLightAt) };
    case "wind":
    case "gust":
      return { kind: one.kind, valueKn: kn(one.mps), neverKn: kn(one.neverMps) };
    case "sea":
      return { kind: one.kind, valueMetres: rounded(one.metres, 2), neverMetres: rounded(one.neverMetres, 2) };
    case "depth":
      return { kind: one.kind, underKeelMetres: rounded(one.underKeelMetres, 2), leastMetres: rounded(one.leastMetres, 2) };
    case "fuel":
      return { kind: one.kind, leftLitres: rounded(one.leftLitres, 1), keptLitres: rounded(one.keptLitres, 1) };
    case "notJudged":
      return { kind: one.kind, why: noAnswerJson(one.why) };
  }
}

function waitJson(wait: WaitOff | null) {
  if (wait === null) return null;
  const { refuge, arrivalAt, opensAt } = wait;
  return { name: refuge.name, arrivalAt: iso(arrivalAt), opensAt: iso(opensAt), waitSeconds: rounded(opensAt - arrivalAt, 0) };
}
