// @ts-check
import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { filesUnder, stampOf } from "./compile.mjs";
import { inRoot } from "./root.mjs";
import { runNode, toolFile } from "./run.mjs";

const stampName = ".built";
/** What the page is made of, besides itself; a change in another room doesn't make it anew. */
const rooms = ["web", "figures", "words", "api", "core"];
const settings = ["vite.config.mjs", "tsconfig.json", "package-lock.json", "scripts/house/web.mjs"];

/** The faces of the sheet, latin subsets: each family with the weights and styles that it is set in. */
const faces = [
  { family: "source-serif-4", styles: ["400-normal", "600-normal", "400-italic"] },
  { family: "ibm-plex-sans-condensed", styles: ["400-normal", "600-normal"] },
];

/** Bundles the page into dist/web when something it is made of has changed. Throws an Error with a message when it can't. */
export async function bundleWebIfChanged() {
  const target = inRoot("dist", "web");
  const sources = rooms.flatMap((room) => filesUnder(inRoot("src", room)).map((path) => inRoot("src", room, path)));
  const stamp = stampOf([...sources, ...settings.map((path) => inRoot(path))]);
  const stampFile = join(target, stampName);
  if (existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp) return false;
  const checked = await runNode([toolFile("typescript", "tsc"), "-p", inRoot("src", "web", "tsconfig.json")]);
  if (checked.code !== 0) throw new Error("The TypeScript compiler refused the page; what it found stands above.");
  const { build } = await import("vite");
  await build({ configFile: inRoot("vite.config.mjs") });
  copyFonts(join(target, "fonts"));
  compress(target);
  writeFileSync(stampFile, stamp);
  return true;
}

/** @param {string} folder */
function copyFonts(folder) {
  mkdirSync(folder, { recursive: true });
  for (const { family, styles } of faces) {
    const from = inRoot("node_modules", "@fontsource", family);
    for (const style of styles) {
      const name = `${family}-latin-${style}.woff2`;
      copyFileSync(join(from, "files", name), join(folder, name));
    }
    copyFileSync(join(from, "LICENSE"), join(folder, `${family}-LICENSE.txt`));
  }
}

/**
 * Lays a compressed copy beside everything that is text: the server sends it as it is.
 * @param {string} folder
 */
function compress(folder) {
  for (const path of filesUnder(folder).filter((one) => /\.(js|css|html|svg)$/.test(one))) {
    const file = join(folder, path);
    const bytes = readFileSync(file);
    writeFileSync(`${file}.gz`, gzipSync(bytes, { level: 9 }));
    writeFileSync(`${file}.br`, brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }));
  }
}
