// @ts-check
// Ports of refuge for every hour of the demo's way, eight places: ours beside a search all round for each, accuracy and time in one run.
import { fileURLToPath } from "node:url";
import { findHeadings, lineBetween, placeAt, RunsTo } from "../dist/core/passage/index.js";
import { refugesAt } from "../dist/core/plan/index.js";
import { openPassage } from "../dist/storage/index.js";
import { perRun } from "./clock.mjs";

const demo = fileURLToPath(new URL("../demo/morrel/passage.yaml", import.meta.url));
const GOAL_MS = 30;
/** Wednesday 7 April 2027, 22:00 ship's time. */
const DEPART_AT = Date.UTC(2027, 3, 8, 6) / 1000;
/** Two more entrances off the invented coasts, so that there are eight places with the demo's four and both ends of the route. */
const MORE = /** @type {const} */ ([
  ["a seventh", -33.51, -119.07],
  ["an eighth", -34.1, -118.26],
]);

export async function benchRefuges() {
  const opened = await openPassage(demo);
  if (!opened.ok) throw new Error("the demo can't be opened");
  const { prepared: alone } = opened.value;
  const stated = alone.passage.refuges;
  const [first] = stated?.listed ?? [];
  if (stated === undefined || first === undefined) throw new Error("the demo has no refuges");
  const more = MORE.map(([name, latitudeDeg, longitudeDeg]) => ({ ...first, name, position: { latitudeDeg, longitudeDeg } }));
  const prepared = { ...alone, passage: { ...alone.passage, refuges: { ...stated, listed: [...stated.listed, ...more] } } };
  const answer = refugesAt(prepared, DEPART_AT);
  const { way, hours, refuges } = answer;
  if (way === null) throw new Error("the demo has no way then");
  const { crossing } = prepared.trialOf(0, { from: DEPART_AT, until: way.arrivalAt });
  const starts = hours.map(({ at }) => ({ ...placeAt(way.track, at), at, engineOn: false }));
  const places = refuges.map((refuge) => prepared.plane.toPlane(refuge.position));
  const naive = () =>
    places.map((place) =>
      starts.map((start) => {
        const line = lineBetween(prepared.plane, start.xMetres, start.yMetres, place.xMetres, place.yMetres);
        return findHeadings(crossing.simulator, crossing.boat, line, start, crossing.stepSeconds).found[0]?.arrivalAt ?? null;
      }),
    );
  const warm = () =>
    places.map((place) => {
      const runs = new RunsTo(crossing, crossing.boat, place);
      return starts.map(({ xMetres, yMetres, at }) => {
        const run = runs.from(xMetres, yMetres, at);
        return run.kind === "arrives" ? run.arrivalAt : null;
      });
    });
  let worst = 0;
  const one = naive();
  warm().forEach((row, i) => {
    row.forEach((arrivalAt, k) => {
      const wanted = one[i]?.[k] ?? null;
      // Of one that is told as unreachable by the baseline only the fastest way can know better.
      if (wanted !== null) worst = Math.max(worst, arrivalAt === null ? Number.POSITIVE_INFINITY : Math.abs(arrivalAt - wanted));
    });
  });
  const runs = refuges.length * hours.length;
  console.log(
    `\nPorts of refuge, ${refuges.length} places at each of ${hours.length} hours of the demo's way, with wind, sea, light, depth and fuel:`,
  );
  console.table([
    {
      what: `the whole answer, point of equal time and all (goal ${GOAL_MS} ms)`,
      took: `${perRun(() => refugesAt(prepared, DEPART_AT)).toFixed(1)} ms`,
    },
    {
      what: `its ${runs} headings alone, each sought near the hour before's`,
      took: `${perRun(warm).toFixed(1)} ms`,
      "worst arrival, s": worst.toFixed(2),
    },
    { what: "the same sought all round each time (baseline)", took: `${perRun(naive).toFixed(1)} ms`, "worst arrival, s": "0.00" },
  ]);
}
