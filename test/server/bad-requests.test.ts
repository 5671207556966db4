import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { issuesTold } from "../../src/api/index.ts";
import { codes } from "../../src/core/answers/index.ts";
import { type Answer, codesOf, passageForm, SHORT_TEXT, type Started, started } from "./started.ts";

let server: Started;
let id = "";
beforeAll(async () => {
  server = await started();
  id = (await server.send("/api/passages", passageForm(SHORT_TEXT))).json.id;
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.stop();
});

/** A refusal in its one shape, with codes that the registry has, and nothing of the program's inside. */
function expectRefused(answer: Answer): void {
  expect(answer.status, answer.text).toBeGreaterThanOrEqual(400);
  expect(answer.status, answer.text).toBeLessThan(500);
  const told = issuesTold.parse(answer.json);
  expect(told.issues.length).toBeGreaterThan(0);
  for (const one of told.issues) expect(Object.keys(codes)).toContain(one.code);
  expect(answer.text).not.toMatch(/\bat .*\.(?:ts|js):\d|node_modules/);
}

const anything = fc.anything({ withNullPrototype: false, maxDepth: 2 }).filter((value) => JSON.stringify(value) !== undefined);

/** Bodies that are near to right and yet wrong: each has one of its parts replaced by something it can't be. */
function nearly(good: Record<string, unknown>, wrong: Record<string, fc.Arbitrary<unknown>>): fc.Arbitrary<unknown> {
  return fc
    .constantFrom(...Object.keys(wrong))
    .chain((key) => (wrong[key] as fc.Arbitrary<unknown>).map((value) => ({ ...good, [key]: value })));
}

const noRevision = fc.oneof(fc.constantFrom(0, -1, 1.5, 1e300, null, "1", true), fc.double({ noInteger: true, noNaN: true }), fc.string());
const noText = fc.oneof(fc.constant(""), fc.integer(), fc.constant(null), fc.array(fc.string()));
const noEdits = fc.oneof(
  fc.constant([]),
  fc.constant(null),
  fc.array(fc.record({ path: noText, typed: fc.string() }), { minLength: 1, maxLength: 3 }),
  fc.array(fc.record({ path: fc.string({ minLength: 1 }), typed: fc.oneof(fc.integer(), fc.boolean(), fc.constant({})) }), {
    minLength: 1,
    maxLength: 3,
  }),
  fc.constant(Array.from({ length: 101 }, () => ({ path: "a", typed: "b" }))),
);

describe("requests that are not put as they must be", () => {
  it("are refused by what is wrong with their bodies", async () => {
    const cases: [string, string, fc.Arbitrary<unknown>][] = [
      ["PUT", "/text", nearly({ text: SHORT_TEXT, revision: 1 }, { text: noText, revision: noRevision })],
      ["PATCH", "", nearly({ revision: 1, edits: [{ path: "boat.name", typed: "x" }] }, { revision: noRevision, edits: noEdits })],
      [
        "POST",
        "/sources",
        nearly(
          { revision: 1, file: "letter.txt", as: "weather" },
          { revision: noRevision, file: noText, as: fc.string().filter((as) => as !== "water" && as !== "weather") },
        ),
      ],
    ];
    for (const [method, end, bodies] of cases) {
      await fc.assert(
        fc.asyncProperty(bodies, async (body) => {
          const answer = await server.ask(method, `/api/passages/${id}${end}`, body);
          expectRefused(answer);
          expect(answer.status).toBe(400);
        }),
        { numRuns: 40 },
      );
    }
    expect((await server.ask("GET", `/api/passages/${id}`)).json.revision).toBe(1);
  }, 120_000);

  it("never bring anything but an answer or a refusal, whatever the body", async () => {
    const targets = [
      ["PUT", "/text"],
      ["PATCH", ""],
      ["POST", "/sources"],
      ["POST", "/files"],
    ] as const;
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...targets), anything, async ([method, end], body) => {
        expectRefused(await server.ask(method, `/api/passages/${id}${end}`, body));
      }),
      { numRuns: 80 },
    );
    for (const body of ["", "{", "[1", "\u0000", '{"a":1}x', "null", '{"__proto__":{"revision":1}}']) {
      expectRefused(await server.ask("PATCH", `/api/passages/${id}`, body));
    }
  }, 120_000);

  it("are refused where an edit's path or text is nonsense, and change nothing", async () => {
    const before = (await server.ask("GET", `/api/passages/${id}/text`)).text;
    const paths = fc.oneof(
      fc.string({ minLength: 1, maxLength: 60, unit: "binary" }),
      fc.constantFrom(
        "__proto__",
        "limits.__proto__.happy",
        "constructor",
        "limits",
        "boat.name.first",
        "water.sources[99].file",
        "a[0]",
        "[",
        '["x"]',
        "limits..wind",
      ),
    );
    await fc.assert(
      fc.asyncProperty(paths, fc.string({ maxLength: 40, unit: "binary" }), async (path, typed) => {
        expectRefused(await server.ask("PATCH", `/api/passages/${id}`, { revision: 1, edits: [{ path, typed }] }));
      }),
      { numRuns: 120 },
    );
    expect((await server.ask("GET", `/api/passages/${id}/text`)).text).toBe(before);
  }, 120_000);

  it("are refused by ids, instants and addresses that can't be", async () => {
    const odd = fc.oneof(
      fc.string({ minLength: 1, maxLength: 100, unit: "binary" }),
      fc.constantFrom("..", "%00", "%", "%zz", "a/b", "x".repeat(300)),
    );
    await fc.assert(
      fc.asyncProperty(odd, fc.constantFrom("", "/text", "/board", "/paper?at=2027-04-08T04:00Z"), async (text, end) => {
        const answer = await server.ask("GET", `/api/passages/${text.startsWith("%") ? text : encodeURIComponent(text)}${end}`);
        expectRefused(answer);
      }),
      { numRuns: 80 },
    );
    for (const at of [
      "now",
      "2027-04-08",
      "2027-04-08T04:00",
      "2027-13-08T04:00Z",
      "1969-12-31T23:59Z",
      "2200-01-01T00:00Z",
      "2027-04-08T04:00:00+02:00",
      "275760-09-13T00:00Z",
    ]) {
      for (const url of [`/departures/${at}`, `/departures/${at}/after`, `/paper?at=${encodeURIComponent(at)}`]) {
        const answer = await server.ask("GET", `/api/passages/${id}${url}`);
        expectRefused(answer);
        expect(answer.status).toBe(400);
      }
    }
    for (const [method, url] of [
      ["GET", "/api/runs/x/events"],
      ["DELETE", "/api/runs/x"],
      ["GET", "/api"],
      ["POST", "/api/openapi.json"],
      ["GET", "/../../etc/passwd"],
    ] as const) {
      expectRefused(await server.ask(method, url));
    }
    const none = await server.ask("GET", "/api/runs/00000000-0000-4000-8000-000000000000/events");
    expect([none.status, codesOf(none)]).toEqual([404, ["not-found"]]);
  }, 120_000);

  it("are refused where they are of another kind, or too much", async () => {
    const kind = await server.ask("PATCH", `/api/passages/${id}`, "revision=1", { "content-type": "application/x-www-form-urlencoded" });
    expect([kind.status, codesOf(kind)]).toEqual([415, ["upload-not-understood"]]);
    const much = await server.ask("PUT", `/api/passages/${id}/text`, JSON.stringify({ text: "x".repeat(9_500_000), revision: 1 }));
    expect([much.status, codesOf(much)]).toEqual([413, ["upload-too-large"]]);
  });
});
