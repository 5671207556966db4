import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { createServer } from "../../src/server/index.ts";
import { codesOf, passageForm, SHORT_TEXT, type Started, started } from "./started.ts";

let home = "";
let open: Started[] = [];
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), "athwart-"));
});
afterEach(async () => {
  for (const server of open) await server.stop();
  open = [];
  rmSync(home, { recursive: true, force: true });
});

async function start(options: { open?: string } = {}): Promise<Started> {
  const server = await started({ home, ...options });
  open.push(server);
  return server;
}

async function stop(server: Started): Promise<void> {
  open = open.filter((one) => one !== server);
  await server.stop();
}

async function whole(server: Started, id: string) {
  await server.board(id);
  while (server.office.runs.goingFor(id) !== null) await new Promise((resolve) => setTimeout(resolve, 30));
  return server.board(id);
}

/** The files of kept answers: the passage's and, where its run came to its end, the demo's. */
const kept = (): string[] => readdirSync(join(home, "kept")).sort();

describe("after a restart", () => {
  it("everything that was acknowledged is there, and the board at once, without a run", async () => {
    const first = await start();
    const id = (await first.send("/api/passages", passageForm(SHORT_TEXT))).json.id;
    const change = await first.ask("PATCH", `/api/passages/${id}`, {
      revision: 1,
      edits: [{ path: "limits.wind.never", typed: "23.0 kn" }],
    });
    expect(change.status).toBe(200);
    const board = await whole(first, id);
    const passage = (await first.ask("GET", `/api/passages/${id}`)).json;
    await stop(first);
    const second = await start();
    expect((await second.ask("GET", `/api/passages/${id}`)).json).toEqual(passage);
    const again = await second.ask("GET", `/api/passages/${id}/board`);
    expect([again.status, again.json]).toEqual([200, board.json]);
    expect(second.office.runs.goingFor(id)).toBeNull();
    expect((await second.ask("POST", `/api/passages/${id}/undo`)).json.board.limits[0].never).toBe("22 kn");
  }, 120_000);

  it("a kept answer that is damaged, cut short or of an older form is passed over and made anew", async () => {
    const first = await start();
    const id = (await first.send("/api/passages", passageForm(SHORT_TEXT))).json.id;
    const board = await whole(first, id);
    let revision = 1;
    await stop(first);
    const harms: ((bytes: Buffer) => Buffer)[] = [
      (bytes) => bytes.subarray(0, bytes.length / 2),
      (bytes) => Buffer.concat([bytes.subarray(0, 1000), Buffer.from([(bytes[1000] ?? 0) ^ 1]), bytes.subarray(1001)]),
      () => Buffer.from("athwart kept 1\nsomething else"),
      () => Buffer.alloc(0),
    ];
    for (const harm of harms) {
      expect(kept().length).toBeGreaterThan(0);
      for (const name of kept()) writeFileSync(join(home, "kept", name), harm(readFileSync(join(home, "kept", name))));
      const server = await start();
      // The board itself is kept beside; what it was judged from is run again.
      expect((await server.ask("GET", `/api/passages/${id}/board`)).json).toEqual(board.json);
      const change = await server.ask("PATCH", `/api/passages/${id}`, { revision, edits: [{ path: "limits.wind.never", typed: "30 kn" }] });
      expect(change.status).toBe(200);
      await whole(server, id);
      await server.ask("POST", `/api/passages/${id}/undo`);
      expect((await whole(server, id)).json).toEqual(board.json);
      revision += 2;
      await stop(server);
    }
  }, 240_000);

  it("a board of real places is told again only while its sources are as old as it says", async () => {
    let now = 1_807_000_000;
    const at = { home, now: () => now };
    const first = await started(at);
    const text = SHORT_TEXT.replace("invented: yes", "invented: no");
    const id = (await first.send("/api/passages", passageForm(text))).json.id;
    const told = await whole(first, id);
    await first.stop();
    now += 300;
    const soon = await started(at);
    expect((await soon.ask("GET", `/api/passages/${id}/board`)).json).toEqual(told.json);
    await soon.stop();
    now += 3 * 24 * 3600;
    const later = await started(at);
    open.push(later);
    const loud = (board: { sources: { loud: boolean }[] }): number => board.sources.filter((one) => one.loud).length;
    expect(loud((await later.board(id)).json)).toBeGreaterThan(loud(told.json));
  }, 120_000);

  it("a file that was opened is the same passage, with what was changed in it", async () => {
    const folder = mkdtempSync(join(tmpdir(), "athwart-"));
    try {
      for (const name of ["current.nc", "wind.grib2", "letter.txt", "land.geojson"])
        writeFileSync(join(folder, name), readFileSync(`demo/morrel/${name}`));
      const path = join(folder, "mine.yaml");
      writeFileSync(path, SHORT_TEXT);
      const first = await start({ open: path });
      const id = first.passageId;
      expect(id).not.toBe("demo");
      await first.ask("PATCH", `/api/passages/${id}`, { revision: 1, edits: [{ path: "boat.name", typed: "Sorrel" }] });
      await stop(first);
      const second = await start({ open: path });
      expect(second.passageId).toBe(id);
      expect((await second.ask("GET", `/api/passages/${id}/text`)).text).toContain("name: Sorrel");
      expect(readFileSync(path, "utf8")).toBe(SHORT_TEXT);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }, 120_000);
});

describe("one data folder", () => {
  it("serves one program at a time; the second is told so, and the first goes on", async () => {
    const first = await start();
    await expect(createServer({ home })).rejects.toMatchObject({ issues: [{ code: "data-folder-in-use" }] });
    expect((await first.ask("GET", "/api/passages")).status).toBe(200);
  });
});

describe("the thread that reckons", () => {
  it("may die: who waits is told, the next question starts another, and nothing is lost", async () => {
    const server = await start();
    const id = (await server.send("/api/passages", passageForm(SHORT_TEXT))).json.id;
    await whole(server, id);
    const asked = server.ask("GET", `/api/passages/${id}/departures/2027-04-06T17:00Z/after`);
    const run = server.office.run("demo");
    await new Promise((resolve) => setTimeout(resolve, 20));
    await server.office.desk.kill();
    const answer = await asked;
    if (answer.status !== 200) expect([answer.status, codesOf(answer)]).toEqual([503, ["desk-lost"]]);
    if (run.ok) expect(server.office.runs.get(run.value.id)?.end).toMatchObject({ event: "failed", issues: [{ code: "desk-lost" }] });
    expect(server.faults.length).toBe(1);
    expect((await server.ask("GET", `/api/passages/${id}/board`)).status).toBe(200);
    expect((await whole(server, "demo")).status).toBe(200);
  }, 120_000);

  it("that can't even start fails the run and leaves the server answering", async () => {
    const broken = join(home, "broken.mjs");
    writeFileSync(broken, "throw new Error('broken');\n");
    const server = await started({ home, deskScript: new URL(`file://${broken}`) });
    open.push(server);
    const board = await server.ask("GET", "/api/passages/demo/board");
    expect([board.status, codesOf(board)]).toEqual([503, ["desk-lost"]]);
    expect(board.text).not.toContain("broken");
    expect((await server.ask("GET", "/api/passages")).status).toBe(200);
  });
});
