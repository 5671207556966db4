// @ts-check
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { filesUnder, stampOf } from "./compile.mjs";
import { inRoot } from "./root.mjs";

const stampName = ".for";

/**
 * Runs the demo once for each build, so that the page opens with its answer standing: the answer is kept beside the build, under a key of all
 * that it rests on, and is not used for anything else. Where it can't be made the page runs the demo itself.
 */
export async function keepDemoAnswer() {
  const folder = inRoot("dist", "kept");
  const rests = [
    inRoot("dist", ".built"),
    inRoot("package.json"),
    ...filesUnder(inRoot("demo", "morrel")).map((path) => inRoot("demo", "morrel", path)),
  ];
  const stamp = stampOf(rests);
  const stampFile = join(folder, stampName);
  if (existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp) return;
  console.log("Trying the demo's departures, once for this build…");
  const home = mkdtempSync(join(tmpdir(), "athwart-demo-"));
  const { createServer } = await import(pathToFileURL(inRoot("dist", "server", "index.js")).href);
  const { server, office } = await createServer({ home });
  // The thread that reckons does not keep a program alive by itself, and nothing listens here.
  const held = setInterval(() => {}, 1000);
  try {
    const run = office.run("demo");
    if (!run.ok) return;
    await new Promise((resolve) =>
      office.runs.listen(run.value, (/** @type {{ event: string }} */ { event }) => {
        if (event !== "progress" && event !== "board") resolve(null);
      }),
    );
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder, { recursive: true });
    for (const name of readdirSync(join(home, "kept"))) copyFileSync(join(home, "kept", name), join(folder, name));
    const board = office.boardToKeep("demo");
    if (board !== null) writeFileSync(join(folder, board.fileName), board.json);
    writeFileSync(stampFile, stamp);
  } finally {
    clearInterval(held);
    await server.close();
    rmSync(home, { recursive: true, force: true });
  }
}
