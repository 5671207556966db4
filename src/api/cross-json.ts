import type { HelmOrder } from "../core/passage/index.ts";
import { OFF_PATH_NM } from "../core/passage/index.ts";
import { type ComparedWay, type CrossAnswer, forTheHelm, steeringCompass } from "../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { afterArrivalJson } from "./after-arrival-json.ts";
import { fastestJson } from "./fastest-json.ts";
import { fuelJson } from "./fuel-json.ts";
import { iso, rounded } from "./instant.ts";
import { laneCrossingJson, squareDeparturesJson } from "./lanes-json.ts";
import { burnKnown } from "./leave-json.ts";
import { noAnswerJson } from "./no-answer-json.ts";
import { passageJson } from "./passage-json.ts";
import { rowJson, wayJudgedJson } from "./row-json.ts";
import { seamJson } from "./seam-json.ts";
import { stagingJson } from "./staging-json.ts";
import { standingOffJson } from "./standing-off-json.ts";

const nm = (metres: number): number => rounded(nmFromMetres(metres), 3);

/** One departure looked at closely, as JSON, `athwart.cross/1`. */
export function crossJson(answer: CrossAnswer) {
  const { prepared } = answer;
  const compass = steeringCompass(prepared, answer.openWaterFrom);
  const heading = (degTrue: number) => {
    const helm = forTheHelm(prepared, compass, degTrue);
    return { headingDegTrue: rounded(degTrue, 2), headingDegCompass: helm === null ? null : rounded(helm.headingDegCompass, 2) };
  };
  const order = (one: HelmOrder) => ({
    fromAt: iso(one.fromAt),
    acrossNm: nm(one.fromAlongMetres),
    steer:
      one.steer.kind === "heading"
        ? { kind: one.steer.kind, ...heading(one.steer.headingDegTrue), squareTo: one.steer.squareTo ?? [] }
        : one.steer.kind === "holdTrack"
          ? { kind: one.steer.kind, trackDegTrue: rounded(one.steer.trackDegTrue, 2) }
          : one.steer,
  });
  const fuelKnown = burnKnown(prepared);
  const way = ({ way: one, costSeconds, judged, otherwise }: ComparedWay) => {
    if (one.kind === "fails") return { name: one.name, arrives: false as const, why: noAnswerJson(one.why) };
    return {
      name: one.name,
      arrives: true as const,
      openWaterFrom: iso(one.departAt),
      openWaterUntil: iso(one.arrivalAt),
      durationSeconds: rounded(one.arrivalAt - one.departAt, 1),
      costSeconds: rounded(costSeconds ?? 0, 1),
      throughWaterNm: nm(one.throughWaterMetres),
      overGroundNm: nm(one.overGroundMetres),
      upStreamNm: nm(one.upStreamMetres),
      downStreamNm: nm(one.downStreamMetres),
      fuelLitres: fuelKnown ? rounded(one.fuelLitres, 1) : null,
      orders: one.orders.map(order),
      axis: { at: iso(one.axis.at), acrossNm: nm(one.axis.alongMetres), rateKn: rounded(knotsFromMps(one.axis.rateMps), 2) },
      clear: one.clear === null ? null : { at: iso(one.clear.at), acrossNm: nm(one.clear.alongMetres) },
      headingsThatLead: one.name === "oneHeading" || one.name === "squareInLanes" ? one.headingsThatLead : null,
      laneCrossings: one.laneCrossings.map(laneCrossingJson),
      assumedWaterShare: rounded(one.assumedWaterShare, 3),
      judged: judged === null ? null : wayJudgedJson(judged),
      ifTheStreamIs: otherwise.map(({ streamFactor, carried, addedSeconds }) => ({
        streamFactor,
        addedSeconds: addedSeconds === null ? null : rounded(addedSeconds, 1),
        offLineWhenClearNm: carried.offAtClearMetres === null ? null : nm(carried.offAtClearMetres),
        why: carried.run.kind === "fails" ? noAnswerJson(carried.run.why) : null,
      })),
    };
  };
  const { stream } = answer;
  return {
    schema: "athwart.cross/1" as const,
    passage: passageJson(prepared),
    departAt: iso(answer.departAt),
    openWaterFrom: iso(answer.openWaterFrom),
    compass:
      compass.kind === "compass" ? { kind: compass.kind, variationDeg: rounded(compass.variationDeg, 2), from: compass.from } : compass,
    stream:
      stream === null
        ? null
        : {
            axisAcrossNm: nm(stream.axisAlongMetres),
            axisRateKn: rounded(knotsFromMps(stream.axisRateMps), 2),
            totalKnNm: rounded(knotsFromMps(nmFromMetres(Math.abs(stream.totalMetres2ps))), 2),
            downStreamSide: stream.downStreamSide === 1 ? "starboard" : "port",
          },
    fastest: answer.fastest === null ? null : fastestJson(answer.fastest),
    advised: answer.advised?.name ?? null,
    ways: answer.ways.map(way),
    reAim: {
      offPathNm: OFF_PATH_NM,
      offPathSense: "down-stream positive",
      tables: answer.reAim.map((table) => ({
        streamFactor: table.streamFactor,
        rows: table.rows.map((row) => ({
          acrossNm: nm(row.acrossMetres),
          at: iso(row.at),
          cells: row.cells.map((cell) => (cell === null ? null : { ...heading(cell.headingDegTrue), arrivalAt: iso(cell.arrivalAt) })),
        })),
      })),
    },
    verdict: rowJson(answer.row, fuelKnown),
    seams: answer.seams.map(seamJson),
    squareDepartures: answer.squareDepartures === null ? null : squareDeparturesJson(answer.squareDepartures),
    staging: answer.staging === null ? null : stagingJson(answer.staging),
    afterArrival: answer.afterArrival === null ? null : afterArrivalJson(answer.afterArrival, fuelKnown),
    standingOff: answer.standingOff === null ? null : standingOffJson(answer.standingOff, prepared),
    fuel: answer.fuel === null ? null : fuelJson(answer.fuel),
    upStreamBias:
      answer.upStreamBias === null
        ? null
        : {
            totalSpreadShare: answer.upStreamBias.spreadShare,
            rows: answer.upStreamBias.rows.map((row) => ({
              biasNm: nm(row.biasMetres),
              ...heading(row.headingDegTrue),
              costSeconds: rounded(row.costSeconds, 1),
              downStreamChance: rounded(row.downStreamChance, 3),
            })),
          },
  };
}
