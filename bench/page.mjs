// @ts-check
// The page in a browser, on the demo: first paint, the board from nothing, a departure moved, a limit edited, a run stopped, the script's
// size, and what the server costs while nobody asks it anything. By itself: `node bench/page.mjs`, after a build.
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { keepDemoAnswer } from "../scripts/house/demo-answer.mjs";
import { inRoot } from "../scripts/house/root.mjs";
import { latenciesOf, traced } from "./browser-trace.mjs";
import { median } from "./clock.mjs";

const CHROMIUM = process.env["ATHWART_CHROMIUM"] ?? "/usr/bin/chromium";
const IDLE_SECONDS = Number(process.env["ATHWART_IDLE_SECONDS"] ?? 60);
/** What was asked for before the page was closed is finished first. */
const SETTLE_SECONDS = 10;
const MOVES = 50;
const EDITS = 10;

export async function benchPage() {
  if (!existsSync(CHROMIUM)) return console.log("page: no Chromium here, not measured");
  const { chromium } = await import("playwright-core");
  const home = mkdtempSync(join(tmpdir(), "athwart-bench-page-"));
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"] });
  console.log("\nThe page on the demo, measured in Chromium");
  // Before the other server runs: two programs would share the cores.
  await asNpmStartLeavesIt(browser);
  const server = await startServer(home);
  try {
    say("script in all, gzip", `${(scriptBytes() / 1000).toFixed(1)} kB`);
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    const opened = performance.now();
    await page.goto(server.address);
    const paint = await page.evaluate(
      () =>
        new Promise((/** @type {(startTime: number) => void} */ resolve) => {
          new PerformanceObserver((list) => {
            const first = list.getEntries().find(({ name }) => name === "first-contentful-paint");
            if (first !== undefined) resolve(first.startTime);
          }).observe({ type: "paint", buffered: true });
        }),
    );
    say("first paint", ms(paint));
    await page.waitForSelector("#board tr[data-at]", { state: "attached", timeout: 120_000 });
    say("board usable, nothing kept from before", seconds(performance.now() - opened));
    await page.waitForSelector("#run", { state: "hidden", timeout: 120_000 });
    say("with every chance", seconds(performance.now() - opened));
    const warm = performance.now();
    await page.reload();
    await page.waitForSelector("#board tr[data-at]", { state: "attached" });
    say("board usable, opened again", ms(performance.now() - warm));
    await page.waitForSelector("#section-figure svg");
    await page.waitForTimeout(1500);
    const moves = await movesByKeys(page, MOVES);
    say(`a departure moved, key to its work done and laid out, median of ${MOVES}`, medianAndLongest(moves.work));
    say("  then waiting for the browser to begin its frame", medianAndLongest(moves.waited));
    say("  then style, layout and paint of that frame", medianAndLongest(moves.drawn));
    say("  key to the frame after it is painted, in all", medianAndLongest(moves.painted));
    say("  key to that frame presented, as the browser itself tells it", medianAndLongest(moves.presented));
    for (const restMilliseconds of [2000, 300]) {
      const edits = [];
      for (let i = 0; i < EDITS; i++) edits.push(await editOnce(page, i % 2 === 0 ? "26 kn" : "27 kn", restMilliseconds));
      say(
        `a limit edited to its new board, ${restMilliseconds / 1000} s apart, median of ${EDITS}`,
        medianAndLongest(edits.map(({ seen }) => seen)),
      );
      say("  of that, the server's answer", medianAndLongest(edits.map(({ answered }) => answered)));
      say("  the page, from the answer to the board set", medianAndLongest(edits.map(({ drawn }) => drawn)));
    }
    await page.waitForSelector("#run", { state: "hidden", timeout: 120_000 });
    say("a run stopped", ms(await stopOnce(page)));
    await page.close();
    await idle(server.pid);
  } finally {
    await browser.close();
    server.child.kill();
    rmSync(home, { recursive: true, force: true });
  }
}

/**
 * Moves the choice down and up the board by keys that the browser is given as a keyboard's, so that its whole way from key to frame is
 * measured; times in milliseconds. A page can't make a frame begin sooner: what is waited for it is told apart.
 * @param {import("playwright-core").Page} page
 * @param {number} moves
 */
async function movesByKeys(page, moves) {
  await page.focus("#board input[type=radio]:checked");
  await page.evaluate(timeKeysInPage);
  const trace = await traced(page);
  for (let i = 0; i < moves; i++) {
    await page.keyboard.press(i % 20 < 10 ? "ArrowDown" : "ArrowUp");
    await page.waitForTimeout(150);
  }
  const presented = latenciesOf(await trace.end(), "KEY_PRESSED");
  const keys = await page.evaluate(() => /** @type {{ keys?: KeyTimes[] }} */ (window).keys ?? []);
  return {
    work: keys.map(({ from, done }) => done - from),
    waited: keys.map(({ done, frame }) => frame - done),
    drawn: keys.map(({ frame, out }) => out - frame),
    painted: keys.map(({ from, out }) => out - from),
    presented,
  };
}

/** @typedef {{ from: number, done: number, frame: number, out: number }} KeyTimes */

/** Notes of each key when it is heard, when its work is done and laid out, when the next frame begins, and when that is painted. */
function timeKeysInPage() {
  /** @type {KeyTimes[]} */
  const keys = [];
  Object.assign(window, { keys });
  let from = 0;
  window.addEventListener("keydown", () => (from = performance.now()), { capture: true });
  window.addEventListener("keydown", () => {
    document.body.getBoundingClientRect();
    const [began, done] = [from, performance.now()];
    requestAnimationFrame(() => {
      const frame = performance.now();
      const channel = new MessageChannel();
      channel.port1.onmessage = () => keys.push({ from: began, done, frame, out: performance.now() });
      channel.port2.postMessage(null);
    });
  });
}

/**
 * Edits one limit; times in milliseconds. `seen`: from the key to the beginning of the frame in which the new board is seen.
 * @param {import("playwright-core").Page} page
 * @param {string} typed
 * @param {number} restMilliseconds from the edit before
 */
function editOnce(page, typed, restMilliseconds) {
  return page.evaluate(
    async ([text, rest]) => {
      const field = document.querySelector("#field-limits-gust-never");
      const board = document.querySelector("#board");
      if (!(field instanceof HTMLInputElement) || board === null) throw new Error("there is no such limit");
      await new Promise((resolve) => setTimeout(resolve, rest));
      performance.clearResourceTimings();
      let set = 0;
      const watch = new MutationObserver(() => {
        if (document.querySelector("#saved")?.textContent === "Saved") set = performance.now();
      });
      watch.observe(document.body, { childList: true, subtree: true });
      const from = performance.now();
      field.value = text;
      field.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true, cancelable: true }));
      while (document.querySelector("#saved")?.textContent !== "Saved") await new Promise((resolve) => requestAnimationFrame(resolve));
      const seen = performance.now();
      watch.disconnect();
      // What the browser notes of a request comes a little after its answer.
      await new Promise((resolve) => setTimeout(resolve, 50));
      const sent = performance.getEntriesByType("resource").find(({ name }) => /\/api\/passages\/[^/]+$/.test(name));
      if (!(sent instanceof PerformanceResourceTiming)) throw new Error("no edit was sent");
      return { seen: seen - from, answered: sent.responseStart - sent.requestStart, drawn: set - sent.responseEnd };
    },
    /** @type {const} */ ([typed, restMilliseconds]),
  );
}

/** @param {import("playwright-core").Page} page */
async function stopOnce(page) {
  await page.fill("#field-boat-power-speed", "6.4 kn");
  await page.press("#field-boat-power-speed", "Enter");
  await page.waitForSelector("#cancel-run");
  await page.waitForTimeout(400);
  return page.evaluate(async () => {
    const from = performance.now();
    const stop = document.querySelector("#cancel-run");
    if (!(stop instanceof HTMLButtonElement)) throw new Error("nothing runs");
    stop.click();
    while (!document.querySelector("#run")?.textContent?.includes("cancelled"))
      await new Promise((resolve) => requestAnimationFrame(resolve));
    return performance.now() - from;
  });
}

/** @param {number} pid */
async function idle(pid) {
  const stat = `/proc/${pid}/stat`;
  if (!existsSync(stat)) return;
  const ticks = () =>
    readFileSync(stat, "utf8")
      .split(") ")[1]
      ?.split(" ")
      .slice(11, 13)
      .map(Number)
      .reduce((a, b) => a + b, 0) ?? 0;
  await new Promise((resolve) => setTimeout(resolve, SETTLE_SECONDS * 1000));
  const before = ticks();
  await new Promise((resolve) => setTimeout(resolve, IDLE_SECONDS * 1000));
  const rss = Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1] ?? Number.NaN);
  say(`server at rest over ${IDLE_SECONDS} s, one core`, `${((ticks() - before) / IDLE_SECONDS).toFixed(2)} %`);
  say("server's memory", `${Math.round(rss / 1024)} MB`);
}

function scriptBytes() {
  const folder = inRoot("dist", "web", "assets");
  const scripts = readdirSync(folder).filter((name) => name.endsWith(".js"));
  return scripts.reduce((sum, name) => sum + gzipSync(readFileSync(join(folder, name)), { level: 9 }).byteLength, 0);
}

/**
 * @param {string} home
 * @param {string | null} built
 */
function startServer(home, built = null) {
  const file = join(home, "start-server.mjs");
  const door = pathToFileURL(inRoot("dist", "server", "index.js")).href;
  writeFileSync(
    file,
    `import { createServer, listen } from ${JSON.stringify(door)};\nconsole.log("at " + (await listen(await createServer({ home: ${JSON.stringify(home)}, built: ${JSON.stringify(built)} }), 0)));\n`,
  );
  const child = spawn(process.execPath, [file], { stdio: ["ignore", "pipe", "inherit"] });
  return new Promise((/** @type {(started: { address: string, pid: number, child: typeof child }) => void} */ resolve, reject) => {
    child.stdout.on("data", (/** @type {Buffer} */ chunk) => {
      const address = /at (http:\S+)/.exec(chunk.toString())?.[1];
      if (address !== undefined) resolve({ address, pid: child.pid ?? 0, child });
    });
    child.on("exit", () => reject(new Error("the server ended")));
  });
}

const say = (/** @type {string} */ what, /** @type {string} */ figure) => console.log(`  ${what.padEnd(68)} ${figure}`);
const medianAndLongest = (/** @type {readonly number[]} */ values) => `${ms(median(values))} (longest ${ms(Math.max(...values))})`;
const ms = (/** @type {number} */ value) => `${value.toFixed(value < 10 ? 1 : 0)} ms`;
const seconds = (/** @type {number} */ value) => `${(value / 1000).toFixed(1)} s`;

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) await benchPage();

/**
 * A data folder of its own, and the demo's answer as `npm start` made it with the build: from the program's start to the board.
 * @param {import("playwright-core").Browser} browser
 */
async function asNpmStartLeavesIt(browser) {
  await keepDemoAnswer();
  const home = mkdtempSync(join(tmpdir(), "athwart-bench-built-"));
  const from = performance.now();
  const server = await startServer(home, inRoot("dist", "kept"));
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  try {
    await page.goto(server.address);
    await page.waitForSelector("#board tr[data-at]", { state: "attached", timeout: 120_000 });
    say("board usable from the program's start, as npm start leaves it", seconds(performance.now() - from));
  } finally {
    await page.close();
    server.child.kill();
    rmSync(home, { recursive: true, force: true });
  }
}
