import { Validator } from "@seriousme/openapi-schema-validator";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Started, started } from "./started.ts";

let server: Started;
beforeAll(async () => {
  server = await started();
});
afterAll(() => server.stop());

const ROUTES = [
  "delete /api/passages/{id}",
  "delete /api/runs/{id}",
  "get /api/passages",
  "get /api/passages/{id}",
  "get /api/passages/{id}/board",
  "get /api/passages/{id}/departures/{at}",
  "get /api/passages/{id}/departures/{at}/after",
  "get /api/passages/{id}/paper",
  "get /api/passages/{id}/text",
  "get /api/runs/{id}/events",
  "patch /api/passages/{id}",
  "post /api/passages",
  "post /api/passages/{id}/files",
  "post /api/passages/{id}/redo",
  "post /api/passages/{id}/runs",
  "post /api/passages/{id}/sources",
  "post /api/passages/{id}/undo",
  "put /api/passages/{id}/text",
];

describe("the description of the API", () => {
  it("is OpenAPI 3.1 by an independent validator, which can refuse", async () => {
    const { json } = await server.ask("GET", "/api/openapi.json");
    const validator = new Validator();
    const result = await validator.validate(json);
    expect(result.errors ?? "").toBe("");
    expect([result.valid, validator.version]).toEqual([true, "3.1"]);
    expect((await new Validator().validate({ ...json, paths: { nowhere: 1 } })).valid).toBe(false);
  });

  it("names every route, with what it takes and answers", async () => {
    const { json } = await server.ask("GET", "/api/openapi.json");
    const named = Object.entries<Record<string, { summary?: string; responses: object; requestBody?: { content: object } }>>(json.paths);
    const all = named.flatMap(([path, methods]) => Object.keys(methods).map((method) => `${method} ${path}`));
    expect(all.filter((one) => !one.startsWith("head ")).sort()).toEqual(ROUTES);
    for (const [path, methods] of named) {
      for (const [method, one] of Object.entries(methods)) expect(one.summary, `${method} ${path}`).toBeTruthy();
    }
    expect(Object.keys(json.paths["/api/passages"].post.requestBody.content)).toEqual(["multipart/form-data"]);
    expect(JSON.stringify(json.paths["/api/passages/{id}"].patch.requestBody)).toContain("limits.wind.never");
    expect(JSON.stringify(json.paths["/api/passages/{id}/board"].get.responses["200"])).toContain("athwart.board/1");
  });
});
