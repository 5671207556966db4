import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const folder = mkdtempSync(join(tmpdir(), "athwart-"));
const file = join(folder, "passage.yaml");
const WHEN = "2027-04-12 0800";

beforeAll(() => {
  cpSync("examples/letter-only", folder, { recursive: true });
  const text = readFileSync(file, "utf8");
  writeFileSync(file, text.replace("goes: motor-sail", "goes: sail"));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("a passage under sail", () => {
  it("is told the fastest with tacking free, and the plan with its tacks and what it rests on", async () => {
    const { out } = await run("cross", file, "--at", WHEN);
    const flat = out.replace(/\s+/g, " ");
    expect(flat).toMatch(/fastest under sail \d+ h \d\d .*tacking free; /);
    expect(flat).toMatch(/its plan \d+ h \d\d .*with (no tack|\d+ (tacks?|gybes?))/);
    expect(flat).toMatch(/The plan under sail: .* wind over the (port|starboard) side at \d+°.*; there \d\d:\d\d/);
    expect(flat).toMatch(/A tack is taken to cost 60 s and a gybe 120 s without way, and no board is kept for less than 30 min/);
  });

  it("says the same as JSON, every key in the page on it", async () => {
    const answer = await runJson("cross", file, "--at", WHEN);
    const under = at(answer, "fastest", "underSail");
    expect(under).toMatchObject({
      tackingIsFree: true,
      leastBoardSeconds: 1800,
      tackSeconds: 60,
      gybeSeconds: 120,
      plan: { arrives: true },
    });
    expect(Number(at(under, "plan", "durationSeconds"))).toBeGreaterThanOrEqual(Number(at(answer, "fastest", "durationSeconds")) - 1);
    const page = readFileSync("docs/json.md", "utf8");
    for (const key of ["tackingIsFree", "leastBoardSeconds", "tackSeconds", "gybeSeconds"])
      expect(page).toContain(`\`fastest.underSail.${key}\``);
    for (const key of Object.keys(Object(at(under, "plan")))) {
      expect(page, key).toMatch(new RegExp(`\`fastest\\.underSail\\.plan\\.${key}(\\[\\])?\``));
    }
    for (const key of Object.keys(Object(at(under, "plan", "boards", 0))))
      expect(page).toContain(`\`fastest.underSail.plan.boards[].${key}\``);
  });

  it("is null under power", async () => {
    expect(at(await runJson("cross", "--demo", "--at", "2027-04-07 2200"), "fastest", "underSail")).toBeNull();
  });
});
