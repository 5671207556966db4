import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { passageForm, SHORT_TEXT, type Started, started } from "./started.ts";

let built = "";
beforeEach(() => {
  built = mkdtempSync(join(tmpdir(), "athwart-built-"));
});
afterEach(() => {
  rmSync(built, { recursive: true, force: true });
});

/** Opens a passage, keeps its board as a build keeps the demo's, and gives what was asked of a second server that has the build's. */
async function boardOfSecond(text: string): Promise<{ first: unknown; second: unknown; ran: boolean }> {
  const one = await started();
  const id = await opened(one, text);
  const first = (await one.board(id)).json;
  while (one.office.runs.goingFor(id) !== null) await new Promise((resolve) => setTimeout(resolve, 30));
  const kept = one.office.boardToKeep(id);
  // One word of it is changed, so that it can be told from a board that was made anew.
  writeFileSync(join(built, kept?.fileName ?? ""), JSON.stringify({ ...JSON.parse(kept?.json ?? ""), name: "as the build has it" }));
  await one.stop();
  const two = await started({ built });
  const again = await opened(two, text);
  const answer = await two.ask("GET", `/api/passages/${again}/board`);
  await two.stop();
  return { first, second: answer.json, ran: answer.status === 409 };
}

async function opened(server: Started, text: string): Promise<string> {
  return (await server.send("/api/passages", passageForm(text))).json.id;
}

describe("a board that was made with the build", () => {
  it("of invented waters stands at once in a new data folder", async () => {
    const { first, second } = await boardOfSecond(SHORT_TEXT);
    expect(second).toEqual({ ...(first as object), name: "as the build has it" });
  }, 60_000);

  it("is not taken for real waters, whose sources grow old", async () => {
    const { ran } = await boardOfSecond(SHORT_TEXT.replace(/^invented: yes\n/m, ""));
    expect(ran).toBe(true);
  }, 60_000);
});
