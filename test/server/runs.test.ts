import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { boardTold } from "../../src/api/index.ts";
import { listen } from "../../src/server/index.ts";
import { codesOf, DEMO_TEXT, passageForm, SHORT_TEXT, type Started, started } from "./started.ts";

let server: Started;
let url = "";
beforeAll(async () => {
  server = await started();
  url = await listen(server, 0);
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.stop();
});

interface Heard {
  readonly event: string;
  readonly data: string;
  readonly at: number;
}

/** Listens to a run over a socket as a browser does; `until` may stop listening. */
async function listenTo(run: string, until: (heard: readonly Heard[]) => boolean | Promise<boolean> = () => false): Promise<Heard[]> {
  const stop = new AbortController();
  const response = await fetch(`${url}/api/runs/${run}/events`, { signal: stop.signal });
  expect(response.headers.get("content-type")).toBe("text/event-stream; charset=utf-8");
  expect(response.headers.get("content-security-policy")).toContain("default-src 'self'");
  const heard: Heard[] = [];
  const decoder = new TextDecoder();
  let text = "";
  for await (const piece of response.body ?? []) {
    text += decoder.decode(piece, { stream: true });
    const blocks = text.split("\n\n");
    text = blocks.pop() ?? "";
    for (const block of blocks) {
      const found = /^event: (\w+)\ndata: (.*)$/.exec(block);
      if (found !== null) heard.push({ event: found[1] ?? "", data: found[2] ?? "", at: performance.now() });
    }
    if (await until(heard)) break;
  }
  stop.abort();
  return heard;
}

async function opened(text: string): Promise<string> {
  return (await server.send("/api/passages", passageForm(text))).json.id;
}

const begin = async (id: string): Promise<string> => (await server.ask("POST", `/api/passages/${id}/runs`, {})).json.id;

describe("a run", () => {
  it("tells how far it is, a first board, the whole one, and that it is done", async () => {
    const id = await opened(DEMO_TEXT.replace("Tansy", "Bistort"));
    const heard = await listenTo(await begin(id));
    const events = heard.map((one) => one.event);
    expect(events.at(-1)).toBe("done");
    const progress = heard.filter((one) => one.event === "progress").map((one) => JSON.parse(one.data));
    expect(progress.length).toBeGreaterThan(5);
    for (const { done, of, stage } of progress) {
      expect(done).toBeLessThanOrEqual(of);
      expect(["departures", "chances"]).toContain(stage);
    }
    // Departures are counted first, then the chances of those that are not shut.
    for (const stage of ["departures", "chances"]) {
      const counts = progress.filter((one) => one.stage === stage).map((one) => one.done);
      expect(counts).toEqual([...counts].sort((a, b) => a - b));
    }
    expect(progress.findIndex((one) => one.stage === "chances")).toBeGreaterThan(
      progress.findLastIndex((one) => one.stage === "departures"),
    );
    expect(progress.at(-1)).toMatchObject({ done: progress.at(-1).of });
    const boards = heard.filter((one) => one.event === "board").map((one) => boardTold.parse(JSON.parse(one.data)));
    expect(boards.length).toBe(2);
    const chances = boards.map(
      (board) => board.days.flatMap((day) => day.lines.map((line) => line.inTen)).filter((inTen) => inTen !== null).length,
    );
    expect(chances[0]).toBe(0);
    expect(chances[1]).toBeGreaterThan(20);
    expect((await server.ask("GET", `/api/passages/${id}/board`)).json).toEqual(boards[1]);
  }, 120_000);

  it("that is going is given and not doubled, and who comes late hears how far it is", async () => {
    const id = await opened(DEMO_TEXT.replace("Tansy", "Bugle"));
    const [one, two] = [await begin(id), await begin(id)];
    expect(two).toBe(one);
    const first = listenTo(one);
    await listenTo(one, (heard) => heard.length > 3);
    const late = await listenTo(one);
    expect(late[0]?.event).toBe("progress");
    expect(late.at(-1)?.event).toBe("done");
    expect((await first).at(-1)?.event).toBe("done");
    const after = await listenTo(one);
    expect(after.map((heard) => heard.event)).toEqual(["progress", "board", "done"]);
  }, 120_000);

  it("is cancelled within a second, tells that and nothing after, and loses nothing that it has tried", async () => {
    const id = await opened(DEMO_TEXT.replace("14 kn", "15 kn").replace("Tansy", "Bryony"));
    const run = await begin(id);
    let askedAt = 0;
    const heard = await listenTo(run, async (all) => {
      if (all.at(-1)?.event === "progress" && askedAt === 0) {
        askedAt = performance.now();
        expect((await server.ask("DELETE", `/api/runs/${run}`)).status).toBe(204);
      }
      return false;
    });
    const end = heard.at(-1);
    expect(end?.event).toBe("cancelled");
    expect(heard.filter((one) => one.event === "cancelled").length).toBe(1);
    console.info(`cancelled ${Math.round((end?.at ?? 0) - askedAt)} ms after it was asked`);
    expect((end?.at ?? Number.POSITIVE_INFINITY) - askedAt).toBeLessThan(1000);
    expect((await server.ask("DELETE", `/api/runs/${run}`)).status).toBe(204);
    const board = await server.ask("GET", `/api/passages/${id}/board`);
    expect([board.status, codesOf(board)]).toEqual([409, ["not-run-yet"]]);
    expect(board.json.run.id).not.toBe(run);
    const again = await listenTo(board.json.run.id);
    expect(JSON.parse(again[0]?.data ?? "{}").done).toBeGreaterThan(0);
    expect(again.at(-1)?.event).toBe("done");
  }, 120_000);

  it("of what another is running already waits for it, and has nothing left to do", async () => {
    const text = DEMO_TEXT.replace("Tansy", "Clary");
    const [id, copy] = [await opened(text), await opened(text)];
    const [run, second] = [listenTo(await begin(id)), listenTo(await begin(copy))];
    expect((await run).at(-1)?.event).toBe("done");
    expect((await second).map((one) => one.event)).toEqual(["board", "done"]);
  }, 120_000);

  it("goes on when who listened has gone", async () => {
    const id = await opened(DEMO_TEXT.replace("Tansy", "Sorrel"));
    const run = await begin(id);
    await listenTo(run, (heard) => heard.length > 2);
    expect(server.office.runs.get(run)?.end).toBeNull();
    expect((await server.board(id)).status).toBe(200);
    for (let tries = 0; (server.office.runs.get(run)?.listeners.size ?? 0) > 0 && tries < 50; tries++)
      await new Promise((resolve) => setTimeout(resolve, 50));
    expect(server.office.runs.get(run)?.listeners.size).toBe(0);
  }, 120_000);

  it("of a passage that is changed gives way to one of the new text", async () => {
    const id = await opened(DEMO_TEXT.replace("Tansy", "Yarrow"));
    const run = await begin(id);
    const change = await server.ask("PATCH", `/api/passages/${id}`, { revision: 1, edits: [{ path: "boat.power.speed", typed: "6 kn" }] });
    expect(change.json.run.id).not.toBe(run);
    expect((await listenTo(run)).at(-1)?.event).toBe("cancelled");
    expect((await server.board(id)).json.speed.value).toBe("6 kn");
  }, 120_000);

  it("of a passage whose files are missing fails with every reason", async () => {
    const id = (await server.send("/api/passages", passageForm(SHORT_TEXT.replace("current.nc", "another.nc")))).json.id;
    const heard = await listenTo(await begin(id));
    expect(heard.map((one) => one.event)).toEqual(["failed"]);
    expect(JSON.parse(heard[0]?.data ?? "{}")).toMatchObject({
      schema: "athwart.issues/1",
      issues: [{ path: "water.sources[0]", code: "file-not-opened" }],
    });
  });

  it("that is under way does not keep other questions waiting", async () => {
    const id = await opened(DEMO_TEXT.replace("Tansy", "Tormentil"));
    const run = await begin(id);
    await listenTo(run, (heard) => heard.length > 1);
    const told = await server.ask("GET", `/api/passages/${id}/departures/2027-04-08T04:00Z`);
    expect(told.status).toBe(200);
    expect(server.office.runs.get(run)?.end).toBeNull();
    await server.ask("DELETE", `/api/runs/${run}`);
  }, 120_000);
});
