import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { root } from "../house/source-files.ts";

const path = "/usr/bin/chromium";

/** Whether a Chromium stands where Debian puts it; without one, what is drawn is only read, not looked at: said aloud. */
export const hasBrowser = existsSync(path);
if (!hasBrowser) console.warn(`No ${path}: what is drawn is not looked at in a browser.`);

export function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: path, args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"] });
}

/** The style sheets of figures and paper, with the faces inside. */
export function stylesWithFaces(...names: readonly string[]): string {
  const text = names.map((name) => readFileSync(join(root, "src", name), "utf8")).join("\n");
  return text.replace(/url\("\/fonts\/(.*?)-latin-(.*?)\.woff2"\)/g, (_, family: string, rest: string) => faceAsData(family, rest));
}

function faceAsData(family: string, rest: string): string {
  const bytes = readFileSync(join(root, "node_modules/@fontsource", family, "files", `${family}-latin-${rest}.woff2`));
  return `url(data:font/woff2;base64,${bytes.toString("base64")})`;
}

/** The faces alone, for fragments that the page would give them. */
export function faces(): string {
  const all = stylesWithFaces("sheet/paper.css");
  return [...all.matchAll(/@font-face \{[^}]*\}/g)].map((match) => match[0]).join("\n");
}
