// @ts-check
// The demo's week: a cold start of the built program, and each stage by itself.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { crossAt, tryDepartures } from "../dist/core/plan/index.js";
import { judgeBoard } from "../dist/core/window/index.js";
import { openPassage } from "../dist/storage/index.js";
import { median, perRun } from "./clock.mjs";

const main = fileURLToPath(new URL("../dist/cli/main.js", import.meta.url));
const demo = fileURLToPath(new URL("../demo/morrel/passage.yaml", import.meta.url));
const GOAL_SECONDS = 1.5;

export async function benchDemo() {
  const cold = Array.from({ length: 5 }, () => {
    const from = performance.now();
    const { status } = spawnSync(process.execPath, [main, "leave", "--demo"], { stdio: "ignore" });
    if (status !== 0) throw new Error(`leave --demo ended with ${status}`);
    return (performance.now() - from) / 1000;
  });
  const bare = Array.from({ length: 5 }, () => {
    const from = performance.now();
    spawnSync(process.execPath, ["-e", ""], { stdio: "ignore" });
    return (performance.now() - from) / 1000;
  });
  const opened = await openPassage(demo);
  if (!opened.ok) throw new Error("the demo can't be opened");
  const { prepared } = opened.value;
  const answer = tryDepartures(prepared);
  if (answer === null) throw new Error("stopped");
  const openings = [];
  for (let i = 0; i < 5; i++) {
    const from = performance.now();
    await openPassage(demo);
    openings.push(performance.now() - from);
  }
  console.log("\nThe demo's week:");
  console.table([
    { what: `leave --demo, cold start of the built program (goal ${GOAL_SECONDS} s)`, took: `${median(cold).toFixed(2)} s` },
    { what: "node alone, the floor under it", took: `${median(bare).toFixed(2)} s` },
    { what: "reading the passage and its files, warm", took: `${median(openings).toFixed(0)} ms` },
    {
      what: `running and feeling ${answer.rows.length} departures in ${prepared.weather.wind.memberCount} forecasts, warm`,
      took: `${perRun(() => tryDepartures(prepared)).toFixed(0)} ms`,
    },
    {
      what: "judging them again under changed limits",
      took: `${perRun(() => judgeBoard(answer.kept, prepared.passage.limits, prepared.weather)).toFixed(1)} ms`,
    },
    {
      what: "one departure looked at closely (cross)",
      took: `${perRun(() => crossAt(prepared, answer.departures[0] ?? 0)).toFixed(0)} ms`,
    },
  ]);
}
