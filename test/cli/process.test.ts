import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { DEPARTURE, type Outcome, run } from "./run.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const main = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));

/** Runs the built program; with `readOnly` given, the reader closes the pipe after so many bytes, as `head` does. */
function runBuilt(words: readonly string[], readOnly = Number.POSITIVE_INFINITY): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [main, ...words], { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
      if (out.length >= readOnly) child.stdout.destroy();
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    child.on("error", reject);
    child.on("close", (code) => resolve({ code: code ?? -1, out, err }));
  });
}

describe("the built program (npm run build)", () => {
  it("stands in dist", () => {
    expect(existsSync(main), "build it first: npm run build").toBe(true);
  });

  it.each([
    [["leave", "--demo", "--every"]],
    [["cross", "--demo", "--at", DEPARTURE, "--json"]],
    [["inspect", "demo/morrel/wind.grib2", "--demo"]],
    [["sky", "--demo"]],
    [["variation", "--near", "33S 118W", "--at", "2031-01-01"]],
    [["steer", "--track", "090", "--speed", "6"]],
    [["leave", "--evry"]],
  ])("answers %j as in process", async (words) => {
    expect(await runBuilt(words)).toEqual(await run(...words));
  });

  it("is quiet when its reader has seen enough", async () => {
    expect(await runBuilt(["leave", "--demo", "--json"], 1)).toMatchObject({ code: 0, err: "" });
  });
});
