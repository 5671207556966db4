// @ts-check
// npm start: builds, then opens the page on the demo. `npm start -- COMMAND …` runs any other command.

import { keepDemoAnswer } from "./house/demo-answer.mjs";
import { refuseUnfitNode } from "./house/node-version.mjs";
import { prepare } from "./house/prepare.mjs";
import { inRoot } from "./house/root.mjs";
import { runNode } from "./house/run.mjs";
import { commandOf } from "./house/start-command.mjs";

refuseUnfitNode();
if (await prepare()) {
  const typed = process.argv.slice(2);
  const words = commandOf(typed);
  if (words[0] === "open") await keepDemoAnswer();
  const { code } = await runNode([inRoot("dist", "cli", "main.js"), ...words], {
    cwd: process.env["INIT_CWD"] ?? process.cwd(),
  });
  process.exitCode = code;
} else {
  process.exitCode = 1;
}
