// @ts-check
// npm run docs: writes what the docs take from the program: docs/codes.md, docs/passage.schema.json, docs/leave-demo.svg and the README's
// table of ways.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { openingLines, pictureOf } from "./house/answer-picture.mjs";
import { codesText, tableOf } from "./house/codes-text.mjs";
import { refuseUnfitNode } from "./house/node-version.mjs";
import { prepare } from "./house/prepare.mjs";
import { inRoot } from "./house/root.mjs";
import { TABLE_DEPARTURES, waysTable, withTable } from "./house/ways-table.mjs";

refuseUnfitNode();
if (await prepare()) {
  const folder = inRoot("dist", "core", "answers", "codes");
  const files = readdirSync(folder).filter((name) => name.endsWith(".js"));
  const tables = [];
  for (const name of files.sort()) {
    tables.push({ room: name.replace(/\.js$/, ""), table: tableOf(await import(pathToFileURL(`${folder}/${name}`).href)) });
  }
  mkdirSync(inRoot("docs"), { recursive: true });
  writeFileSync(inRoot("docs", "codes.md"), codesText(tables));
  const { passageJsonSchema } = await import(pathToFileURL(inRoot("dist", "formats", "passage", "index.js")).href);
  writeFileSync(inRoot("docs", "passage.schema.json"), `${JSON.stringify(passageJsonSchema(), null, 2)}\n`);
  const { runProgram } = await import(pathToFileURL(inRoot("dist", "cli", "program.js")).href);
  let answer = "";
  await runProgram(["leave", "--demo"], { out: (/** @type {string} */ text) => (answer += text), error: console.error, now: () => 0 });
  writeFileSync(inRoot("docs", "leave-demo.svg"), pictureOf(openingLines(answer, 3), "When to leave, answered on the demo"));
  const answers = [];
  for (const at of TABLE_DEPARTURES) {
    let crossed = "";
    await runProgram(["cross", "--demo", "--at", at, "--json"], {
      out: (/** @type {string} */ text) => (crossed += text),
      error: console.error,
      now: () => 0,
    });
    answers.push(JSON.parse(crossed));
  }
  const readme = inRoot("README.md");
  writeFileSync(readme, withTable(readFileSync(readme, "utf8"), waysTable(answers)));
} else {
  process.exitCode = 1;
}
