import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { leaveJson } from "../../src/api/index.ts";
import { departureTimes, type LeaveAnswer, tryDepartures } from "../../src/core/plan/index.ts";
import { DEPARTURES_WORTH_A_THREAD, tryDeparturesOnThreads, workersFor } from "../../src/jobs/index.ts";
import { openPassage } from "../../src/storage/index.ts";

/** Threads run the compiled file (npm run build). */
const script = new URL("../../dist/jobs/leave-worker.js", import.meta.url);
const demo = fileURLToPath(new URL("../../demo/morrel/passage.yaml", import.meta.url));
const lanes = fileURLToPath(new URL("../../examples/traffic-lanes/passage.yaml", import.meta.url));

async function opened(path: string) {
  const passage = await openPassage(path);
  if (!passage.ok) throw new Error(JSON.stringify(passage.issues));
  const { prepared, gathered } = passage.value;
  const passageTried = { ...prepared.passage, chance: { samples: 20 } };
  return { prepared: { ...prepared, passage: passageTried }, gathered };
}

/** All that an answer holds of its departures, but for what the passage was put together with. */
const said = ({ kept, rows, chances, keptChances, seams }: LeaveAnswer) => ({ kept, rows, chances, keptChances, seams });

describe("departures on several threads", { timeout: 240_000 }, () => {
  it("has been built", () => {
    expect(existsSync(fileURLToPath(script)), "build it first: npm run build").toBe(true);
  });

  it.each([
    ["the demo", demo, 8, 26],
    ["the traffic lanes", lanes, 0, 13],
  ])("are the same to the bit as on one, and as one after the other: %s", async (_name, path, from, until) => {
    const { prepared, gathered } = await opened(path);
    const departures = departureTimes(prepared).slice(from, until);
    const on = async (workers: number) => {
      const { answer, losses } = await tryDeparturesOnThreads(prepared, gathered, { workers, departures, script });
      expect(losses).toEqual([]);
      return answer;
    };
    const one = await on(1);
    expect(one.chances.some((chance) => chance !== null && chance.good.count > 0)).toBe(true);
    for (const workers of [2, 3]) {
      const more = await on(workers);
      expect(said(more)).toEqual(said(one));
      expect(JSON.stringify(leaveJson(more))).toBe(JSON.stringify(leaveJson(one)));
    }
  });

  it("are the same as without any of this, whatever the order of the departures", async () => {
    const { prepared, gathered } = await opened(demo);
    const whole = tryDepartures({ ...prepared, passage: { ...prepared.passage, leaveUntil: departureTimes(prepared)[14] ?? null } });
    if (whole === null) throw new Error("stopped");
    const backward = [...departureTimes(prepared).slice(0, 15)].reverse();
    const { answer } = await tryDeparturesOnThreads(prepared, gathered, { workers: 2, departures: backward, script });
    for (const [i, at] of backward.entries()) {
      const k = whole.departures.indexOf(at);
      expect(answer.kept[i]).toEqual(whole.kept[k]);
      // A verdict may hang on the departures after it; where both tell a chance, it is the same.
      if (answer.chances[i] != null && whole.chances[k] != null) expect(answer.chances[i]).toEqual(whole.chances[k]);
    }
  });

  it("stop when asked to", async () => {
    const { prepared, gathered } = await opened(demo);
    const stop = new AbortController();
    const running = tryDeparturesOnThreads(prepared, gathered, {
      workers: 2,
      script,
      signal: stop.signal,
      progress: (done) => {
        if (done === 5) stop.abort();
      },
    });
    await expect(running).rejects.toThrow("abort");
  });
});

describe("how many threads", () => {
  it("is one for little work, and no more than the cores", () => {
    expect(workersFor(1, 8)).toBe(1);
    expect(workersFor(DEPARTURES_WORTH_A_THREAD, 8)).toBe(2);
    expect(workersFor(173, 2)).toBe(2);
    expect(workersFor(173, 1)).toBe(1);
    expect(workersFor(745, 64)).toBe(8);
  });
});
