// @ts-check
// npm run docs: writes docs/codes.md from the registry.
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { codesText, tableOf } from "./house/codes-text.mjs";
import { refuseUnfitNode } from "./house/node-version.mjs";
import { prepare } from "./house/prepare.mjs";
import { inRoot } from "./house/root.mjs";

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
} else {
  process.exitCode = 1;
}
