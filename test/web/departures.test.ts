import { describe, expect, it } from "vitest";
import type { DepartureTold } from "../../src/api/index.ts";
import type { Answered } from "../../src/web/ask/answered.ts";
import { departuresOf } from "../../src/web/state/departures.ts";
import { shelfOf } from "../../src/web/state/shelf.ts";
import { lineLeaving } from "./boards.ts";

const told = (at: string): DepartureTold => ({
  schema: "athwart.departure/1",
  line: lineLeaving(at),
  leaving: at,
  limits: [],
  inHand: "",
  gates: [],
  inlets: [],
  order: [],
  standsOpen: true,
  compass: "",
  ways: [],
  waysNote: [],
  stream: [],
  section: null,
  reAim: null,
  refuges: null,
  wrong: [],
  restsOn: [],
});

const soon = (milliseconds = 5): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Departures whose answers come when the test says so, and a list of what the page was told. */
function desk(room?: number) {
  const asked: string[] = [];
  const said: string[] = [];
  const answers = new Map<string, (answer: Answered<DepartureTold>) => void>();
  const departures = departuresOf(
    (at, signal) =>
      new Promise((resolve) => {
        asked.push(at);
        answers.set(at, resolve);
        signal.addEventListener("abort", () => resolve({ kind: "dropped" }));
      }),
    {
      shown: (at, departure) => said.push(`shown ${at} ${departure.leaving}`),
      waiting: (at) => said.push(`waiting ${at}`),
      refused: (at, answer) => said.push(`${answer.kind} ${at}`),
    },
    room,
    0,
  );
  const come = async (at: string, answer: Answered<DepartureTold> = { kind: "told", value: told(at) }): Promise<void> => {
    await soon();
    answers.get(at)?.(answer);
    await soon();
  };
  return { departures, asked, said, come };
}

describe("departures looked at one after the other", () => {
  it("waits for the first, then shows it at once from the shelf", async () => {
    const { departures, said, asked, come } = desk();
    departures.want("a", []);
    await come("a");
    departures.want("b", []);
    await come("b");
    departures.want("a", []);
    expect(said).toEqual(["waiting a", "shown a a", "waiting b", "shown b b", "shown a a"]);
    await soon();
    expect(asked).toEqual(["a", "b"]);
  });

  it("never shows an answer that comes late", async () => {
    const { departures, said, come } = desk();
    departures.want("a", []);
    await soon();
    departures.want("b", []);
    await come("b");
    await come("a");
    expect(said).toEqual(["waiting a", "waiting b", "shown b b"]);
  });

  it("doesn't ask for what a held key only passes through", async () => {
    const { departures, asked } = desk();
    for (const at of ["a", "b", "c"]) departures.want(at, []);
    await soon();
    expect(asked).toEqual(["c"]);
  });

  it("fetches the neighbours when the wanted one is there, nearest first", async () => {
    const { departures, asked, said, come } = desk();
    departures.want("b", ["c", "a"]);
    await come("b");
    await come("c");
    await come("a");
    expect(asked).toEqual(["b", "c", "a"]);
    departures.want("c", []);
    expect(said.at(-1)).toBe("shown c c");
  });

  it("forgets what a changed limit has made old, even an answer on its way", async () => {
    const { departures, said, come } = desk();
    departures.want("a", []);
    await soon();
    departures.forget();
    await come("a");
    expect(said).toEqual(["waiting a"]);
    departures.want("a", []);
    expect(said).toEqual(["waiting a", "waiting a"]);
  });

  it("tells a refusal and a server that is gone, once", async () => {
    const { departures, said, come } = desk();
    departures.want("a", ["b"]);
    await come("a", { kind: "unreachable" });
    departures.want("b", []);
    await come("b", { kind: "refused", status: 404, issues: [], run: null });
    expect(said).toEqual(["waiting a", "unreachable a", "waiting b", "refused b"]);
  });
});

describe("a shelf", () => {
  it("throws away what was wanted longest ago", () => {
    const shelf = shelfOf<number>(2);
    shelf.put("a", 1);
    shelf.put("b", 2);
    expect(shelf.take("a")).toBe(1);
    shelf.put("c", 3);
    expect([shelf.has("a"), shelf.has("b"), shelf.has("c")]).toEqual([true, false, true]);
  });
});
