import { expect, it } from "vitest";
import { NewestFirst } from "../../src/server/desk/newest-first.ts";

it("does what waits newest first, one at a time, and drops what nobody waits for", async () => {
  const works = new NewestFirst();
  const done: number[] = [];
  let within = 0;
  const work = (id: number) => async () => {
    within++;
    expect(within).toBe(1);
    await new Promise((resolve) => setImmediate(resolve));
    within--;
    done.push(id);
    return id;
  };
  const all = [1, 2, 3, 4].map((id) => works.take(id, work(id)));
  works.drop(3);
  // What is begun is not dropped.
  works.drop(1);
  works.drop(99);
  expect(await Promise.all(all)).toEqual([1, 2, null, 4]);
  expect(done).toEqual([1, 4, 2]);
  expect(await works.take(5, work(5))).toBe(5);
});

it("goes on after work that fails, and tells who waited", async () => {
  const works = new NewestFirst();
  await expect(works.take(1, () => Promise.reject(new Error("spoilt")))).rejects.toThrow("spoilt");
  expect(await works.take(2, async () => "done")).toBe("done");
});
