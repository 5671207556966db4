import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { boardTold, changeTold, departureTold, passageAsTyped, passagesListed } from "../../src/api/index.ts";
import { codesOf, DEMO_TEXT, demoFile, form, passageForm, SHORT_TEXT, type Started, started } from "./started.ts";

let server: Started;
beforeAll(async () => {
  server = await started();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.stop();
});

async function opened(text = SHORT_TEXT): Promise<string> {
  const made = await server.send("/api/passages", passageForm(text));
  expect(made.status, made.text).toBe(201);
  return made.json.id;
}

const revisionOf = async (id: string): Promise<number> => (await server.ask("GET", `/api/passages/${id}`)).json.revision;

describe("passages", () => {
  it("have the demo among them from the start, and list what was opened", async () => {
    const id = await opened();
    const list = await server.ask("GET", "/api/passages");
    const { passages } = passagesListed.parse(list.json);
    expect(passages[0]).toMatchObject({ id: "demo", name: "Pelu Road to Port Ansa", invented: true, origin: "demo" });
    expect(passages[1]).toMatchObject({ id: "demo-averil", name: "Stannet to Arlmouth", invented: true, origin: "demo" });
    expect(passages.some((one) => one.id === id && one.origin === "opened")).toBe(true);
  });

  it("are given as typed, with the files beside them, and as a file to keep", async () => {
    const id = await opened();
    const one = passageAsTyped.parse((await server.ask("GET", `/api/passages/${id}`)).json);
    expect(one).toMatchObject({ text: SHORT_TEXT, revision: 1, canUndo: false, canRedo: false });
    expect(one.files.map((file) => file.name)).toEqual(["current.nc", "land.geojson", "letter.txt", "wind.grib2"]);
    expect(one.files[3]?.sizeBytes).toBe(demoFile("wind.grib2").length);
    const file = await server.ask("GET", `/api/passages/${id}/text`);
    expect([file.status, file.type, file.text]).toEqual([200, "text/yaml; charset=utf-8", SHORT_TEXT]);
  });

  it("are changed whole, and by their entries, on the revision that was read only", async () => {
    const id = await opened();
    const put = await server.ask("PUT", `/api/passages/${id}/text`, { text: SHORT_TEXT.replace("Tansy", "Bryony"), revision: 1 });
    expect(changeTold.parse(put.json)).toMatchObject({ revision: 2, canUndo: true, canRedo: false });
    const late = await server.ask("PUT", `/api/passages/${id}/text`, { text: SHORT_TEXT, revision: 1 });
    expect([late.status, codesOf(late)]).toEqual([409, ["revision-moved-on"]]);
    const patch = await server.ask("PATCH", `/api/passages/${id}`, { revision: 2, edits: [{ path: "boat.name", typed: "Sorrel" }] });
    expect(changeTold.parse(patch.json)).toMatchObject({ revision: 3, board: null });
    expect(patch.json.run.id).toBeTypeOf("string");
    expect((await server.ask("GET", `/api/passages/${id}/text`)).text).toBe(SHORT_TEXT.replace("Tansy", "Sorrel"));
  });

  it("refuse an entry that does not read, and keep the old", async () => {
    const id = await opened();
    const patch = await server.ask("PATCH", `/api/passages/${id}`, { revision: 1, edits: [{ path: "limits.wind.never", typed: "brisk" }] });
    expect([patch.status, patch.json.issues[0].path, codesOf(patch)]).toEqual([422, "limits.wind.never", ["quantity-not-understood"]]);
    expect(await revisionOf(id)).toBe(1);
    const nowhere = await server.ask("PATCH", `/api/passages/${id}`, { revision: 1, edits: [{ path: "boat.wings.span", typed: "3 m" }] });
    expect(nowhere.status).toBe(422);
    const broken = await server.ask("PUT", `/api/passages/${id}/text`, { text: "a: [", revision: 1 });
    expect(broken.status).toBe(422);
  });

  it("take back and make again, numeral for numeral", async () => {
    const id = await opened();
    await server.ask("PATCH", `/api/passages/${id}`, { revision: 1, edits: [{ path: "limits.wind.never", typed: "24.50 kn" }] });
    const changed = (await server.ask("GET", `/api/passages/${id}/text`)).text;
    expect(changed).toBe(SHORT_TEXT.replace("wind: {happy: 14 kn, never: 22 kn}", "wind: {happy: 14 kn, never: 24.50 kn}"));
    const undone = await server.ask("POST", `/api/passages/${id}/undo`);
    expect(changeTold.parse(undone.json)).toMatchObject({ revision: 3, canUndo: false, canRedo: true });
    expect((await server.ask("GET", `/api/passages/${id}/text`)).text).toBe(SHORT_TEXT);
    await server.ask("POST", `/api/passages/${id}/redo`, {});
    expect((await server.ask("GET", `/api/passages/${id}/text`)).text).toBe(changed);
    const none = await server.ask("POST", `/api/passages/${id}/redo`);
    expect([none.status, codesOf(none)]).toEqual([409, ["no-change-to-walk"]]);
  });

  it("can be removed, but for the demo", async () => {
    const id = await opened();
    expect((await server.ask("DELETE", `/api/passages/${id}`)).status).toBe(204);
    expect((await server.ask("GET", `/api/passages/${id}`)).status).toBe(404);
    const demo = await server.ask("DELETE", "/api/passages/demo");
    expect([demo.status, codesOf(demo)]).toEqual([409, ["demo-stays"]]);
  });
});

describe("what is reckoned", () => {
  it("is a board and a departure as their schemas have them, days after, and paper", async () => {
    const id = await opened();
    const board = boardTold.parse((await server.board(id)).json);
    const lines = board.days.flatMap((day) => day.lines);
    expect(lines.length).toBe(4);
    const at = lines[1]?.departAt ?? "";
    const departure = departureTold.parse((await server.ask("GET", `/api/passages/${id}/departures/${at}`)).json);
    expect(departure.line.departAt).toBe(at);
    expect(departure.line.verdict).toBe(lines[1]?.verdict);
    expect(departure.order.length).toBeGreaterThan(0);
    const after = await server.ask("GET", `/api/passages/${id}/departures/${at}/after`);
    expect(after.json.sentences.join(" ")).toContain("Sarume Pool");
    const paper = await server.ask("GET", `/api/passages/${id}/paper?at=${at}`);
    expect([paper.status, paper.type]).toEqual([200, "text/html; charset=utf-8"]);
    expect(paper.text).toContain("not for navigation");
    expect(paper.text).not.toMatch(/<script/i);
  });

  it("is told of any instant, also between the board's and beyond the forecast", async () => {
    const between = await server.ask("GET", "/api/passages/demo/departures/2027-04-08T04:17Z");
    expect(departureTold.parse(between.json).line.clock).toBe("20:17");
    const beyond = await server.ask("GET", "/api/passages/demo/departures/2031-01-01T00:00Z");
    expect(departureTold.parse(beyond.json).line.verdict).toBe("notJudged");
  });

  it("is the same board at once after a limit was changed as when the changed text is opened afresh", async () => {
    const id = await opened(DEMO_TEXT);
    await wholeOf(id);
    const before = (await server.board(id)).json;
    // Far above, so that departures open of which no chance was told before.
    const edits = [
      { path: "limits.wind.never", typed: "40 kn" },
      { path: "limits.gust.never", typed: "52 kn" },
      { path: "limits.visibility.happy", typed: "5 nm" },
      { path: "limits.visibility.never", typed: "1 nm" },
    ];
    const patch = changeTold.parse((await server.ask("PATCH", `/api/passages/${id}`, { revision: 1, edits })).json);
    expect(patch.board).not.toBeNull();
    expect(patch.board?.answer).not.toEqual(before.answer);
    await wholeOf(id);
    const text = (await server.ask("GET", `/api/passages/${id}/text`)).text;
    const fresh = await opened(text);
    await wholeOf(fresh);
    const [judged, run] = [await server.board(id), await server.board(fresh)];
    expect(judged.json).toEqual(run.json);
    // But for the chances the board that came at once was this one already.
    const withoutChances = (board: typeof patch.board) => board?.days.flatMap((day) => day.lines.map((line) => ({ ...line, inTen: null })));
    expect(withoutChances(patch.board)).toEqual(withoutChances(boardTold.parse(run.json)));
    const undone = changeTold.parse((await server.ask("POST", `/api/passages/${id}/undo`)).json);
    await wholeOf(id);
    expect(undone.board?.answer).toEqual(before.answer);
    expect((await server.board(id)).json).toEqual(before);
  }, 120_000);
});

/** Waits until nothing is run for a passage any more. */
async function wholeOf(id: string): Promise<void> {
  await server.board(id);
  while (server.office.runs.goingFor(id) !== null) await new Promise((resolve) => setTimeout(resolve, 50));
}

describe("files beside a passage", () => {
  it("are looked into, kept, and named as a source where that is wished", async () => {
    const id = await opened();
    const sent = await server.send(
      `/api/passages/${id}/files`,
      form({ field: "file", name: "newer wind.grib2", bytes: demoFile("wind.grib2") }),
    );
    expect(sent.status, sent.text).toBe(200);
    expect(sent.json.files[0]).toMatchObject({
      name: "newer wind.grib2",
      named: false,
      inspection: { kind: "grib2", serves: { verdict: "serves" } },
    });
    expect(sent.json.run).toBeNull();
    const named = await server.ask("POST", `/api/passages/${id}/sources`, { revision: 1, file: "newer wind.grib2", as: "weather" });
    expect(changeTold.parse(named.json).revision).toBe(2);
    expect((await server.ask("GET", `/api/passages/${id}/text`)).text).toContain("    - file: newer wind.grib2\n    - file: wind.grib2\n");
    const board = await server.board(id);
    expect(board.json.sources.map((one: { words: string }) => one.words).join(" ")).toContain("newer wind.grib2");
    const letter = await server.ask("POST", `/api/passages/${id}/sources`, { revision: 2, file: "letter.txt", as: "weather" });
    expect(letter.status).toBe(200);
    expect((await server.ask("GET", `/api/passages/${id}/text`)).text).toMatch(
      /- letter: letter\.txt.*\n +strikeOut: \[5\].*\n +- file: newer wind/,
    );
  });

  it("of a name that the passage has replace what it had, and are run", async () => {
    const id = await opened();
    const sent = await server.send(`/api/passages/${id}/files`, form({ field: "file", name: "letter.txt", bytes: demoFile("letter.txt") }));
    expect(sent.json.files[0]).toMatchObject({ named: true, inspection: { kind: "letter" } });
    expect(sent.json.run.id).toBeTypeOf("string");
  });

  it("can't be named before they are there, nor a letter for a current", async () => {
    const id = await opened();
    const none = await server.ask("POST", `/api/passages/${id}/sources`, { revision: 1, file: "tomorrow.grib2", as: "water" });
    expect([none.status, codesOf(none)]).toEqual([422, ["file-not-here"]]);
    const letter = await server.ask("POST", `/api/passages/${id}/sources`, { revision: 1, file: "letter.txt", as: "water" });
    expect([letter.status, codesOf(letter)]).toEqual([422, ["source-lacks-quantity"]]);
  });

  it("that are missing are told when the board is asked for, by the place that names them", async () => {
    const made = await server.send("/api/passages", form({ field: "passage", name: "p.yaml", bytes: SHORT_TEXT }));
    expect(made.status).toBe(201);
    const board = await server.ask("GET", `/api/passages/${made.json.id}/board`);
    expect(board.status).toBe(422);
    expect(board.json.issues.map((one: { path: string }) => one.path)).toEqual([
      "water.sources[0]",
      "weather.sources[0]",
      "weather.sources[1]",
      "land.files[0]",
    ]);
  });
});
