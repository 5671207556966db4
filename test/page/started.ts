import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { root } from "../house/source-files.ts";

export const CHROMIUM = process.env["ATHWART_CHROMIUM"] ?? "/usr/bin/chromium";

const built = existsSync(join(root, "dist/server/index.js")) && existsSync(join(root, "dist/web/index.html"));

/** Why the tests of the page can't be run here; null where they can. */
export const whyNoPage: string | null = !existsSync(CHROMIUM)
  ? `no Chromium at ${CHROMIUM}: the tests of the page are skipped`
  : built
    ? null
    : "the page is not built (npm run build): its tests are skipped";
if (whyNoPage !== null) console.warn(whyNoPage);

/** A server of our own, as it is shipped: from dist, in a process that can be killed, on a folder that can be kept. */
export interface Started {
  readonly address: string;
  readonly port: number;
  readonly pid: number;
  /** As a crash would: nothing is tidied up. */
  readonly kill: () => Promise<void>;
}

const script = `
import { createServer, listen } from ${JSON.stringify(join(root, "dist/server/index.js"))};
const made = await createServer({ home: process.env.ATHWART_HOME });
console.log("listening " + (await listen(made, Number(process.env.TEST_PORT))));
`;

/** Starts the server on a folder; port 0 is any that is free. */
export function startServer(home: string, port = 0): Promise<Started> {
  const env = { ...process.env, ATHWART_HOME: home, TEST_PORT: String(port) };
  // A file, not `-e`: threads take over a process's own flags.
  const file = join(home, "start-server.mjs");
  writeFileSync(file, script);
  const child = spawn(process.execPath, [file], { env, stdio: ["ignore", "pipe", "pipe"] });
  return new Promise((resolve, reject) => {
    let said = "";
    const hear = (chunk: Buffer): void => {
      said += chunk.toString();
      const address = /listening (http:\/\/[\d.]+:(\d+))/.exec(said);
      if (address?.[1] !== undefined && child.pid !== undefined)
        resolve({ address: address[1], port: Number(address[2]), pid: child.pid, kill: () => killed(child) });
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    child.on("exit", () => reject(new Error(`the server ended: ${said}`)));
  });
}

function killed(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) return resolve();
    child.on("exit", () => resolve());
    child.kill("SIGKILL");
  });
}

/** A folder for a server's data, and a way to throw it away. */
export function newHome(): { readonly home: string; readonly remove: () => void } {
  const home = mkdtempSync(join(tmpdir(), "athwart-page-"));
  return { home, remove: () => rmSync(home, { recursive: true, force: true }) };
}

export function startBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"] });
}

/** A page of its own, nothing remembered, with all that went wrong in it. */
export interface Opened {
  readonly page: Page;
  readonly faults: string[];
}

export async function openPage(browser: Browser, address: string, { width = 1440, height = 900, touch = false } = {}): Promise<Opened> {
  const context = await browser.newContext({ viewport: { width, height }, hasTouch: touch, isMobile: touch, acceptDownloads: true });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => {
    if (/Content Security Policy/.test(message.text())) faults.push(message.text());
  });
  await page.goto(address);
  return { page, faults };
}

/** Waits until the board and the chosen departure stand, and no run is going. */
/** An answer may take the desk a while on a busy machine. */
export const SOON = { timeout: 20_000 };

export async function settled(page: Page): Promise<void> {
  await page.waitForSelector("#board tr[data-at]", { state: "attached", timeout: 60_000 });
  await page.waitForSelector("#run", { state: "hidden", timeout: 60_000 });
  await page.waitForSelector("#steer-body:not(.reckoning) .say", { state: "attached", timeout: 30_000 });
}

/** The departure that is chosen, ISO 8601. */
export function chosen(page: Page): Promise<string> {
  return page.evaluate(() => document.querySelector<HTMLInputElement>("#board input[type=radio]:checked")?.value ?? "none");
}
