// @ts-check
// npm start: builds, then answers the main question on the demo. `npm start -- COMMAND …` runs any other command.
import { refuseUnfitNode } from "./house/node-version.mjs";
import { prepare } from "./house/prepare.mjs";
import { inRoot } from "./house/root.mjs";
import { runNode } from "./house/run.mjs";
import { commandOf } from "./house/start-command.mjs";

refuseUnfitNode();
if (await prepare()) {
  const typed = process.argv.slice(2);
  const { code } = await runNode([inRoot("dist", "cli", "main.js"), ...commandOf(typed)], {
    cwd: process.env["INIT_CWD"] ?? process.cwd(),
  });
  if (typed.length === 0 && code === 0) {
    console.log(`
That was the demo: an invented strait, for demonstration. How to go on:
  npm start -- cross --demo --at TIME     one departure: the ways across side by side, and how to steer
  npm start -- inspect FILE               what a forecast, a current file or a passage file holds, and whether it serves
  npm start -- leave PASSAGE.yaml         your own crossing; README.md shows how to write its passage file
  npm start -- --help                     every command`);
  }
  process.exitCode = code;
} else {
  process.exitCode = 1;
}
