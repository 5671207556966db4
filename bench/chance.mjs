// @ts-check
// The chance of one of the demo's departures: crossings tried a second, and beside them how well so many know it; the week on more threads.
import { fileURLToPath } from "node:url";
import { judgeChances, LeaveWork, ordersToTry, tryDepartures } from "../dist/core/plan/index.js";
import { CHANCE_DEFAULTS, chanceOf, keepChance } from "../dist/core/window/index.js";
import { tryDeparturesOnThreads } from "../dist/jobs/index.js";
import { openPassage } from "../dist/storage/index.js";
import { median, perRun } from "./clock.mjs";

const demo = fileURLToPath(new URL("../demo/morrel/passage.yaml", import.meta.url));
/** Tuesday 6 April 2027, 20:00 ship's time: some arrive before there is light. */
const DEPART_AT = Date.UTC(2027, 3, 7, 4) / 1000;
/** What the chance is held against. */
const MANY = 20_000;

export async function benchChance() {
  const opened = await openPassage(demo);
  if (!opened.ok) throw new Error("the demo can't be opened");
  const { prepared, gathered } = opened.value;
  const { limits } = prepared.passage;
  const answer = tryDepartures(prepared);
  if (answer === null) throw new Error("stopped");
  const order = ordersToTry(answer).find((one) => one.departAt === DEPART_AT);
  const kept = answer.kept.find((one) => one.run.departAt === DEPART_AT);
  if (order === undefined || kept === undefined) throw new Error("the demo has no such departure");
  /** @param {number} samples */
  const workOf = (samples) => new LeaveWork({ ...prepared, passage: { ...prepared.passage, chance: { samples } } });
  /** @param {LeaveWork} work */
  const chanceBy = (work) => chanceOf(keepChance(work.tryOrder(order), kept, limits), limits);
  const known = chanceBy(workOf(MANY));
  const rows = [25, CHANCE_DEFAULTS.samples, 400].map((samples) => {
    const work = workOf(samples);
    const took = perRun(() => work.tryOrder(order));
    const { good, arrival } = chanceBy(work);
    return {
      what: `${samples} crossings of one departure${samples === CHANCE_DEFAULTS.samples ? " (the default)" : ""}`,
      took: `${took.toFixed(1)} ms`,
      "a second": Math.round((1000 * samples) / took),
      chance: good.share.toFixed(3),
      "standard error": good.standardError.toFixed(3),
      [`off ${MANY}`]: (good.share - known.good.share).toFixed(3),
      "late arrival off, min": (((arrival.lateAt ?? 0) - (known.arrival.lateAt ?? 0)) / 60).toFixed(1),
    };
  });
  console.log("\nThe chance of one of the demo's departures:");
  console.table(rows);
  const judging = perRun(() => judgeChances(answer.keptChances, limits));
  const threads = [];
  for (const workers of [1, 2]) {
    const times = [];
    for (let i = 0; i < 3; i++) {
      const from = performance.now();
      await tryDeparturesOnThreads(prepared, gathered, { workers });
      times.push(performance.now() - from);
    }
    threads.push({
      what: `the week with its chances on ${workers} thread${workers === 1 ? "" : "s"}`,
      took: `${median(times).toFixed(0)} ms`,
    });
  }
  console.table([
    ...threads,
    { what: "judging all its chances again under changed limits, nothing run", took: `${judging.toFixed(1)} ms` },
  ]);
}
