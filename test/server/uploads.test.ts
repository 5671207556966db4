import { readdirSync } from "node:fs";
import { connect } from "node:net";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listen } from "../../src/server/index.ts";
import { codesOf, demoFile, form, type Part, passageForm, SHORT_TEXT, type Started, started } from "./started.ts";

let server: Started;
let id = "";
let url = "";
beforeAll(async () => {
  server = await started();
  id = (await server.send("/api/passages", passageForm(SHORT_TEXT))).json.id;
  url = await listen(server, 0);
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.stop();
});

const files = (...parts: readonly Part[]) => server.send(`/api/passages/${id}/files`, form(...parts));
const named = async (): Promise<string[]> =>
  (await server.ask("GET", `/api/passages/${id}`)).json.files.map((file: { name: string }) => file.name);
const incoming = (): string[] => readdirSync(join(server.home, "incoming"));
const BEFORE = ["current.nc", "land.geojson", "letter.txt", "wind.grib2"];

async function expectNothingKept(): Promise<void> {
  expect(await named()).toEqual(BEFORE);
  expect(incoming()).toEqual([]);
}

describe("files that are sent", () => {
  it.each([
    ["a web page", "<!doctype html><html><body>Not found</body></html>"],
    ["a passage", SHORT_TEXT],
    ["nothing", ""],
    ["half a forecast", demoFile("wind.grib2").subarray(0, 5000)],
    ["a picture", Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13])],
  ])("and are %s are refused with the reason, and not kept", async (_what, bytes) => {
    const answer = await files({ field: "file", name: "forecast", bytes });
    expect(answer.status, answer.text).toBeGreaterThanOrEqual(400);
    expect(answer.json.issues[0].message.length).toBeGreaterThan(10);
    await expectNothingKept();
  });

  it("are refused together where one of them is bad, which is named", async () => {
    const answer = await files(
      { field: "file", name: "good.grib2", bytes: demoFile("wind.grib2") },
      { field: "file", name: "bad.txt", bytes: "rubbish" },
    );
    expect(answer.status).toBe(422);
    expect(answer.json.issues[0].path).toBe("bad.txt");
    await expectNothingKept();
  });

  it.each(["nul\\0l".replace("\\0", "\u0000"), "..", "x".repeat(300), "a\u202eb"])("are refused under the name %j", async (name) => {
    const answer = await files({ field: "file", name, bytes: demoFile("letter.txt") });
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(answer.status).toBeLessThan(500);
    await expectNothingKept();
  });

  it("keep only the last part of a path for a name", async () => {
    const other = (await server.send("/api/passages", passageForm(SHORT_TEXT))).json.id;
    const answer = await server.send(
      `/api/passages/${other}/files`,
      form({ field: "file", name: "../../x/wind 2.grib2", bytes: demoFile("wind.grib2") }),
    );
    expect([answer.status, answer.json.files[0].name]).toEqual([200, "wind 2.grib2"]);
  });

  it("are bounded: a letter's length, a passage's, the number of files", async () => {
    const letter = await files({ field: "file", name: "long.txt", bytes: "ISSUED\n".repeat(1_200_000) });
    expect([letter.status, codesOf(letter)]).toEqual([413, ["upload-too-large"]]);
    const passage = await server.send("/api/passages", form({ field: "passage", name: "p.yaml", bytes: "a: b\n".repeat(900_000) }));
    expect([passage.status, codesOf(passage)]).toEqual([413, ["upload-too-large"]]);
    const many = await files(...Array.from({ length: 60 }, (_, i) => ({ field: "file", name: `f${i}.txt`, bytes: "x" })));
    expect([many.status, codesOf(many).at(-1)]).toEqual([413, "upload-too-large"]);
    await expectNothingKept();
  });

  it("must be parts that are asked for: one passage, no plain fields, no name twice", async () => {
    const bytes = demoFile("letter.txt");
    const refused = [
      await files({ field: "letter", name: "a.txt", bytes }),
      await files({ field: "file", bytes }),
      await files(),
      await files({ field: "file", name: "a.txt", bytes }, { field: "file", name: "b/a.txt", bytes }),
      await server.send("/api/passages", form({ field: "file", name: "a.txt", bytes })),
      await server.send(
        "/api/passages",
        form({ field: "passage", name: "a", bytes: SHORT_TEXT }, { field: "passage", name: "b", bytes: SHORT_TEXT }),
      ),
      await server.send(
        "/api/passages",
        form({ field: "passage", name: "a", bytes: SHORT_TEXT }, { field: "file", name: "b", bytes: SHORT_TEXT }),
      ),
    ];
    expect(refused.map((one) => [one.status, codesOf(one).includes("upload-not-understood")])).toEqual(refused.map(() => [415, true]));
    const faulty = await server.send("/api/passages", form({ field: "passage", name: "p.yaml", bytes: SHORT_TEXT.replace("14 kn", "14") }));
    expect(faulty.status).toBe(422);
    await expectNothingKept();
  });

  it("and end in the middle leave nothing, whether the form or the line breaks off", async () => {
    const whole = form({ field: "file", name: "wind.grib2", bytes: demoFile("wind.grib2") });
    for (const length of [0, 30, 100, 300, 5000, whole.body.length - 10]) {
      const answer = await server.send(`/api/passages/${id}/files`, { ...whole, body: whole.body.subarray(0, length) });
      expect(answer.status, `${length}: ${answer.text}`).toBeGreaterThanOrEqual(400);
      expect(answer.status).toBeLessThan(500);
    }
    await expectNothingKept();
    const { port } = new URL(url);
    await new Promise<void>((resolve, reject) => {
      const socket = connect(Number(port), "127.0.0.1", () => {
        socket.write(
          `POST /api/passages/${id}/files HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nOrigin: ${url}\r\nContent-Type: ${whole.type}\r\nContent-Length: ${whole.body.length}\r\n\r\n`,
        );
        socket.write(whole.body.subarray(0, 200_000), () => setTimeout(() => socket.destroy(), 200));
      });
      socket.on("close", () => resolve());
      socket.on("error", reject);
    });
    for (let tries = 0; incoming().length > 0 && tries < 50; tries++) await new Promise((resolve) => setTimeout(resolve, 100));
    await expectNothingKept();
  });

  it("of no form at all are refused", async () => {
    const answer = await server.ask("POST", `/api/passages/${id}/files`, "x", { "content-type": "multipart/form-data" });
    expect(answer.status).toBe(415);
  });
});
