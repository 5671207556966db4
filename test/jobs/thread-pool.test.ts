import { describe, expect, it } from "vitest";
import { type PoolOptions, ThreadPool } from "../../src/jobs/index.ts";

const script = new URL("dying-worker.mjs", import.meta.url);
const tasks = Array.from({ length: 400 }, (_, k) => k);
const squares = tasks.map((k) => k * k);

/** A task done here takes a moment, so that other threads come into it. */
function slowly(task: number): number {
  const until = performance.now() + 2;
  while (performance.now() < until);
  return task * task;
}

async function all(how: string, after: number, others = 1, options: PoolOptions = {}) {
  const pool = new ThreadPool(script, () => ({ how, after }), others);
  let here = 0;
  const own = (task: number): number => {
    here++;
    return slowly(task);
  };
  try {
    const results = await pool.all(
      tasks,
      own,
      (task) => task,
      (result) => result as number,
      options,
    ); // prettier-ignore
    return { results, here, losses: pool.losses };
  } finally {
    await pool.close();
  }
}

describe("threads that do tasks beside this one", () => {
  it("give every result in the order of the tasks, some of them done elsewhere", async () => {
    const { results, here, losses } = await all("well", Number.POSITIVE_INFINITY, 2);
    expect(results).toEqual(squares);
    expect(here).toBeLessThan(tasks.length);
    expect(losses).toEqual([]);
  });

  it("are none where there is no script, and all is done here", async () => {
    const pool = new ThreadPool(null, () => ({}), 3);
    expect(await pool.all(tasks.slice(0, 5), slowly, (task) => task, Number)).toEqual(squares.slice(0, 5));
  });

  it.each([
    ["exit", /ended with 3/],
    ["throw", /come to grief/],
  ])("lose nothing when one dies, and say why it did: %s", async (how, why) => {
    const { results, losses } = await all(how, 7);
    expect(results).toEqual(squares);
    expect(losses).toHaveLength(1);
    expect(losses[0]).toMatch(why);
  });

  it("are not waited for when one hangs", async () => {
    const { results } = await all("hang", 3);
    expect(results).toEqual(squares);
  });

  it("throw what a task throws, wherever it is done", async () => {
    await expect(all("task fails", 500)).rejects.toThrow("a task failed on another thread: nothing can be divided by nought");
    const pool = new ThreadPool(null, () => ({}), 0);
    const failing = (task: number): number => {
      if (task === 3) throw new Error("no such task");
      return task;
    };
    await expect(pool.all(tasks, failing, (task) => task, Number)).rejects.toThrow("no such task");
  });

  it("tell their progress up to the last, once a task", async () => {
    const told: number[] = [];
    await all("well", 500, 1, { progress: (done, of) => told.push(done / of) });
    expect(told).toEqual(tasks.map((k) => (k + 1) / tasks.length));
  });

  it("stop when they are asked to, with the reason that was given", async () => {
    const stop = new AbortController();
    let done = 0;
    const running = all("well", 500, 1, {
      signal: stop.signal,
      progress: (now) => {
        done = now;
        if (now >= 20) stop.abort(new Error("the skipper went ashore"));
      },
    });
    await expect(running).rejects.toThrow("the skipper went ashore");
    expect(done).toBeLessThan(tasks.length);
  });

  it("do two rows of tasks one after the other, and take no late answer of the first for one of the second", async () => {
    const pool = new ThreadPool(script, () => ({ how: "well", after: 1e9 }), 1);
    const again = tasks.map((k) => k + 1000);
    expect(await pool.all(tasks, slowly, (task) => task, Number)).toEqual(squares);
    expect(await pool.all(again, slowly, (task) => task, Number)).toEqual(again.map((k) => k * k));
    await pool.close();
  });
});
