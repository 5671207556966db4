// @ts-check
// A year of high and low waters beside the tide library's, and finding the nearest stations: goals 60 ms and 5 ms.
import { readFileSync } from "node:fs";
import { createTidePredictor } from "@neaps/tide-predictor";
import { openTideStations } from "../dist/atlas/index.js";
import { epochSeconds as at } from "../dist/core/units/index.js";
import { highsAndLows, levelCrossings, tideCurve } from "../dist/core/water/index.js";
import { median, perRun } from "./clock.mjs";

const YEAR_GOAL_MS = 60;
const NEAR_GOAL_MS = 5;
const [from, until] = [Date.UTC(2027, 0, 1) / 1000, Date.UTC(2028, 0, 1) / 1000];
const places = ["noaa/9413450", "noaa/9455920", "kartverket/AES", "ticon/newlyn-new-gbr-bodc"];

export function benchTides() {
  const bytes = new Uint8Array(readFileSync(new URL("../dist/atlas/data/tides.bin", import.meta.url)));
  const opening = Array.from({ length: 5 }, () => {
    const began = performance.now();
    openTideStations(bytes);
    return performance.now() - began;
  });
  const atlas = openTideStations(bytes);
  let place = 0;
  const near = perRun(() => {
    place++;
    return atlas.near({ latitudeDeg: 75 * Math.sin(place), longitudeDeg: ((place * 37) % 360) - 180 }, 5);
  });
  console.log(
    `\nTides: ${atlas.count} stations opened in ${median(opening).toFixed(0)} ms, the nearest five of them in ${near.toFixed(2)} ms (goal ${NEAR_GOAL_MS})`,
  );
  console.log(`A year of high and low waters (goal ${YEAR_GOAL_MS} ms):`);
  console.table(
    places.flatMap((id) => {
      const station = atlas.constants(id);
      if (station === null) return [];
      const curve = () => {
        const made = tideCurve(station);
        if (!made.ok) throw new Error(`no tide at ${id}`);
        return made.value;
      };
      const warm = curve();
      const list = station.constants.map(({ name, amplitudeMetres, phaseDeg }) => ({ name, amplitude: amplitudeMetres, phase: phaseDeg }));
      const theirs = createTidePredictor(list, { offset: false, nodeCorrections: "schureman" });
      const span = { start: new Date(from * 1000), end: new Date(until * 1000) };
      return [
        {
          station: station.name,
          constants: list.length,
          turns: highsAndLows(warm, at(from), at(until)).length,
          "ours from constants, ms": Number(perRun(() => highsAndLows(curve(), at(from), at(until))).toFixed(1)),
          "library, ms": Number(perRun(() => theirs.getExtremesPrediction(span)).toFixed(1)),
          "library's turns": theirs.getExtremesPrediction(span).length,
          "crossings of a level, ms": Number(perRun(() => levelCrossings(warm, station.meanLevelMetres, at(from), at(until))).toFixed(1)),
          "a height, µs": Number(((1000 * perRun(() => heights(warm))) / 1000).toFixed(2)),
        },
      ];
    }),
  );
}

/** A thousand heights. @param {{ heightAt(instant: ReturnType<typeof at>): number }} curve */
function heights(curve) {
  let sum = 0;
  for (let i = 0; i < 1000; i++) sum += curve.heightAt(at(from + i * 997));
  return sum;
}
