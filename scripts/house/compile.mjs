// @ts-check
import { createHash } from "node:crypto";
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { packCompiled, packedFolder } from "./pack.mjs";
import { inRoot } from "./root.mjs";
import { runNode, toolFile } from "./run.mjs";

const stampName = ".built";
/** The page is bundled apart, into the folder of this name: see `web.mjs`. */
const pageFolder = "web/";
const settings = ["tsconfig.json", "package-lock.json", "scripts/house/pack.mjs"];
/** The demo's answer lies there: see `demo-answer.mjs`. */
const keptFolder = "kept/";

/**
 * Every file under a folder, as paths relative to it with forward slashes, sorted.
 * @param {string} folder
 * @returns {string[]}
 */
export function filesUnder(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .sort();
}

/**
 * What the compiler doesn't write but the program reads: everything in src that isn't TypeScript, a tsconfig or notes.
 * @param {string} path relative to src
 */
export function isAsset(path) {
  return !/\.tsx?$/.test(path) && !/(^|\/)tsconfig[^/]*\.json$/.test(path) && !path.endsWith(".md");
}

/**
 * Files in dist that nothing in src stands behind any more; the bundled page is not looked at.
 * @param {readonly string[]} sources relative to src
 * @param {readonly string[]} outputs relative to dist
 */
export function leftOver(sources, outputs) {
  const known = new Set(sources);
  return outputs.filter((path) => {
    if (
      path === stampName ||
      path.startsWith(pageFolder) ||
      path.startsWith(keptFolder) ||
      path.startsWith(packedFolder) ||
      (known.has(path) && isAsset(path))
    )
      return false;
    const stem = path.replace(/(\.d\.ts|\.js)$/, "");
    return stem === path || !(known.has(`${stem}.ts`) || known.has(`${stem}.tsx`));
  });
}

/** Compiles src to dist when a source or setting has changed. Throws an Error with a message when it can't. */
export async function compileIfChanged() {
  const source = inRoot("src");
  const target = inRoot("dist");
  const sources = filesUnder(source).filter((path) => !path.startsWith(pageFolder));
  const stamp = stampOf([...sources.map((path) => join(source, path)), ...settings.map((path) => inRoot(path))]);
  const stampFile = join(target, stampName);
  if (existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp) return false;
  const tsc = toolFile("typescript", "tsc");
  for (const project of [["src/core/tsconfig.json"], ["tsconfig.json", "--noEmitOnError"]]) {
    const { code } = await runNode([tsc, "-p", ...project]);
    if (code !== 0) throw new Error(`The TypeScript compiler refused ${project[0]}; what it found stands above.`);
  }
  for (const path of sources.filter(isAsset)) {
    mkdirSync(dirname(join(target, path)), { recursive: true });
    copyFileSync(join(source, path), join(target, path));
  }
  for (const path of leftOver(sources, filesUnder(target))) rmSync(join(target, path));
  await packCompiled();
  writeFileSync(stampFile, stamp);
  return true;
}

/**
 * What a set of files comes to: another name, size or byte among them gives another.
 * @param {readonly string[]} files
 */
export function stampOf(files) {
  const hash = createHash("sha256");
  for (const file of files) hash.update(`${file}\0${statSync(file).size}\0`).update(readFileSync(file));
  return hash.digest("hex");
}
