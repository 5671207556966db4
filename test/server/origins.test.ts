import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { codesOf, FROM_PAGE, type Started, started } from "./started.ts";

let server: Started;
beforeAll(async () => {
  server = await started();
});
afterAll(() => server.stop());

async function write(headers: Record<string, string>) {
  const answer = await server.server.inject({ method: "POST", url: "/api/passages/demo/runs", headers });
  return { status: answer.statusCode, text: answer.payload, type: "", json: JSON.parse(answer.payload) };
}

const { host, origin } = FROM_PAGE;

describe("a write", () => {
  it.each([
    [{ host, origin }],
    [{ host, "sec-fetch-site": "same-origin" }],
    [{ host: "localhost:4725", origin: "http://localhost:4725", "sec-fetch-site": "same-origin" }],
    [{ host: "[::1]:4725", origin: "http://[::1]:4725" }],
  ])("is taken from the page itself: %j", async (headers) => {
    expect((await write(headers)).status).toBe(202);
  });

  it.each([
    [{ host }],
    [{ host, origin: "http://elsewhere.example" }],
    [{ host, origin: "null" }],
    [{ host, origin: `https://${host}` }],
    [{ host, origin: "http://127.0.0.1:9999" }],
    [{ host, origin: "http://localhost:4725" }],
    [{ host, origin, "sec-fetch-site": "cross-site" }],
    [{ host, origin, "sec-fetch-site": "same-site" }],
    [{ host, "sec-fetch-site": "none" }],
    [{ host: "elsewhere.example", origin: "http://elsewhere.example", "sec-fetch-site": "same-origin" }],
    [{ host: "127.0.0.1.elsewhere.example", origin: "http://127.0.0.1.elsewhere.example" }],
    [{ host: "localhost.", origin: "http://localhost." }],
  ])("is refused from anywhere else: %j", async (headers) => {
    const answer = await write(headers);
    expect([answer.status, codesOf(answer)]).toEqual([403, ["asked-from-elsewhere"]]);
  });
});

describe("reading", () => {
  it.each(["elsewhere.example", "10.0.0.7:4725", "128.0.0.1", "127.0.0.1@elsewhere.example"])(
    "is refused under the name %j",
    async (name) => {
      const answer = await server.server.inject({ method: "GET", url: "/api/passages", headers: { host: name } });
      expect(answer.statusCode).toBe(403);
    },
  );

  it("lets no other site in, frame it, or run its scripts here", async () => {
    const answer = await server.server.inject({ method: "GET", url: "/api/passages", headers: { host } });
    expect(answer.statusCode).toBe(200);
    expect(answer.headers["access-control-allow-origin"]).toBeUndefined();
    expect(answer.headers["cross-origin-resource-policy"]).toBe("same-origin");
    const policy = String(answer.headers["content-security-policy"]);
    expect(policy).toContain("default-src 'self'");
    expect(policy).not.toMatch(/script-src|unsafe-eval|https:|http:|\*/);
    expect(policy).toContain("frame-ancestors 'self'");
    expect(answer.headers["x-content-type-options"]).toBe("nosniff");
  });
});
