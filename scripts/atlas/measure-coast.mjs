// @ts-check
// How far the coastline that ships lies from its own finest version: distances from points of GSHHG's full resolution (Debian's package
// gmt-gshhg-full) to the packed coast. npm run build, then: node scripts/atlas/measure-coast.mjs [FILE]
import { readFileSync } from "node:fs";
import { readBinnedCoast } from "./binned-coast.mjs";

const { readWorldCoast } = await import(new URL("../../dist/atlas/index.js", import.meta.url).href);
const { boxAround, landOn } = await import(new URL("../../dist/core/coast/index.js", import.meta.url).href);
const { planeAround } = await import(new URL("../../dist/core/earth/index.js", import.meta.url).href);

const SAMPLES = 1500;
const REACH_METRES = 10_000;
const full = process.argv[2] ?? "/usr/share/gmt-gshhg/binned_GSHHS_f.nc";
const { rings, unitsPerBin, columns } = await readBinnedCoast(new Uint8Array(readFileSync(full)));
const land = rings.filter((ring) => ring.level === 1);
const perDegree = (columns * unitsPerBin) / 360;
const count = land.reduce((sum, ring) => sum + ring.runs.reduce((n, run) => n + run.xs.length, 0), 0);
const every = Math.floor(count / SAMPLES);
const coast = readWorldCoast();
/** @type {number[]} */
const metres = [];
let beyond = 0;
let seen = 0;
for (const ring of land) {
  for (const { xs, ys } of ring.runs) {
    for (let k = 0; k < xs.length; k++) {
      if (seen++ % every !== 0) continue;
      const latitudeDeg = (ys[k] ?? 0) / perDegree - 90;
      if (Math.abs(latitudeDeg) > 80) continue;
      const longitudeDeg = (((((xs[k] ?? 0) / perDegree + 180) % 360) + 360) % 360) - 180;
      const plane = planeAround({ latitudeDeg, longitudeDeg }, REACH_METRES);
      const distance = landOn(plane, coast.within(boxAround(plane)))?.edgeDistanceMetres(0, 0, REACH_METRES) ?? Infinity;
      if (Number.isFinite(distance)) metres.push(distance);
      else beyond++;
    }
  }
}
metres.sort((one, other) => one - other);
/** @param {number} share */
const at = (share) => Math.round(metres[Math.floor(share * metres.length)] ?? 0);
console.log(
  `${metres.length} points of the full coast: median ${at(0.5)} m, nine tenths within ${at(0.9)} m, 99 % within ${at(0.99)} m, greatest ${at(0.9999)} m;`,
);
console.log(`${beyond} have no packed coast within ${REACH_METRES} m`);
