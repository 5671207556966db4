import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { Library } from "../../../src/storage/index.ts";
import { temporaryFolders } from "../temporary-folder.ts";

const folder = temporaryFolders();
const writer = fileURLToPath(new URL("./killed-writer.mjs", import.meta.url));
const built = fileURLToPath(new URL("../../../dist/storage/index.js", import.meta.url));
const KILLS = 10;

/** Lets the writer work for so long after its first acknowledged edit, kills it without warning, and gives the last revision acknowledged. */
function killedAfter(home: string, id: string, milliseconds: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [writer, home, id], { stdio: ["ignore", "pipe", "pipe"] });
    let out = "";
    let errors = "";
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      errors += text;
    });
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      if (out === "") setTimeout(() => child.kill("SIGKILL"), milliseconds);
      out += text;
    });
    child.on("error", reject);
    child.on("close", (_code, signal) => {
      const lines = out.split("\n").slice(0, -1);
      if (signal === "SIGKILL") resolve(Number(lines.at(-1)));
      else reject(new Error(errors));
    });
  });
}

it("loses no edit that was acknowledged when the process is killed at any moment, and opens again", async () => {
  expect(existsSync(built), "build it first: npm run build").toBe(true);
  const home = folder();
  const made = await Library.open(home, () => 1);
  if (!made.ok) throw new Error(JSON.stringify(made.issues));
  const { id } = made.value.make({
    text: "edit 1",
    name: "p",
    invented: false,
    origin: "opened",
    sourcePath: null,
    sourceHash: null,
    files: [],
  });
  made.value.close();
  let before = 1;
  for (let kill = 0; kill < KILLS; kill++) {
    const acknowledged = await killedAfter(home, id, (kill * 37) % 150);
    const opened = await Library.open(home, () => 1);
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    const [entry, text] = [opened.value.entry(id), opened.value.text(id)];
    opened.value.close();
    if (!entry.ok || !text.ok) throw new Error("the passage is gone");
    expect(acknowledged).toBeGreaterThan(before);
    // One more may have been written and killed before it could be said.
    expect([acknowledged, acknowledged + 1]).toContain(entry.value.revision);
    expect(text.value.startsWith(`edit ${entry.value.revision}:`)).toBe(true);
    before = acknowledged;
  }
}, 120_000);
