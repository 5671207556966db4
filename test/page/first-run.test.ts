import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { chosen, newHome, openPage, SOON, type Started, settled, startBrowser, startServer, whyNoPage } from "./started.ts";

const field = (page: Page, path: string) => page.locator(`#field-${path.replaceAll(".", "-")}`);

describe.skipIf(whyNoPage !== null)("the page on the demo", () => {
  const { home, remove } = newHome();
  let server: Started;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startServer(home), startBrowser()]);
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await server?.kill();
    remove();
  });

  it("shows the answer at the first start, with nothing asked", { timeout: 180_000 }, async () => {
    const { page, faults } = await openPage(browser, server.address);
    await settled(page);
    expect(await page.textContent("#title")).toBe("Pelu Road to Port Ansa");
    expect(await page.textContent("#answer h3")).toMatch(/^Leave \w+ \d\d:\d\d to \w+ \d\d:\d\d\./);
    expect(await page.textContent("#stamp")).toContain("Invented, for demonstration");
    expect(await page.locator("#sources .loud").count()).toBeGreaterThan(0);
    expect(await page.textContent("#safety")).toContain("not for navigation");
    expect(await page.textContent("#steer-body .say h3")).toMatch(/^Steer \d\d\d /);
    expect(await page.locator("#section-figure svg").count()).toBe(1);
    expect(await page.locator("#wrong-body .refuges").count()).toBe(1);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it("moves the departure by plain keys, and everything after it follows", { timeout: 120_000 }, async () => {
    const { page, faults } = await openPage(browser, server.address);
    await settled(page);
    const first = await chosen(page);
    await page.locator("#board input[type=radio]:checked").focus();
    await page.keyboard.press("ArrowDown");
    const second = await chosen(page);
    expect(Date.parse(second)).toBeGreaterThan(Date.parse(first));
    const words = await page.textContent("#leaving");
    await page.keyboard.press("PageDown");
    expect(Date.parse(await chosen(page)) - Date.parse(second)).toBe(86_400_000);
    expect(await page.textContent("#leaving")).not.toBe(words);
    await page.keyboard.press("End");
    const last = await page.evaluate(() => [...document.querySelectorAll<HTMLElement>("#board tr[data-at]")].at(-1)?.dataset["at"]);
    expect(await chosen(page)).toBe(last);
    await page.keyboard.press("Home");
    expect(await page.evaluate(() => document.querySelector<HTMLElement>("#board tr[data-at]")?.dataset["at"])).toBe(await chosen(page));
    await page.keyboard.press("PageDown");
    await settled(page);
    const leaving = await page.textContent("#leaving");
    const at = await chosen(page);
    await expect.poll(() => page.evaluate(() => location.hash), SOON).toBe(`#demo/${at}`);
    await page.reload();
    await settled(page);
    expect(await chosen(page)).toBe(at);
    await expect.poll(() => page.textContent("#leaving"), SOON).toBe(leaving);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it("chooses a line where it is pressed, and opens a fold", { timeout: 60_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    const folded = page.locator("#board button[aria-controls]").first();
    const id = (await folded.getAttribute("aria-controls")) ?? "";
    expect(await page.locator(`#${id}`).isVisible()).toBe(false);
    await folded.click();
    const line = page.locator(`#${id} tr[data-at]`).nth(1);
    await line.locator("td.words").click();
    expect(await chosen(page)).toBe(await line.getAttribute("data-at"));
    await page.context().close();
  });

  it("judges again by a limit edited in place, keeps it, and takes it back", { timeout: 120_000 }, async () => {
    const { page, faults } = await openPage(browser, server.address);
    await settled(page);
    const board = (): Promise<string | null> => page.textContent("#board");
    const before = await board();
    const gust = field(page, "limits.gust.never");
    const typed = await gust.inputValue();
    await gust.fill("19 kn");
    const onScreen = async (): Promise<number> => (await gust.boundingBox())?.y ?? Number.NaN;
    const stood = await onScreen();
    expect(await page.evaluate(() => window.scrollY)).toBeGreaterThan(300);
    await gust.press("Enter");
    await expect.poll(() => page.textContent("#saved"), SOON).toBe("Saved");
    await expect.poll(board, SOON).not.toBe(before);
    // The board above has grown or shrunk; the field under the hand stays about where it was.
    expect(Math.abs((await onScreen()) - stood)).toBeLessThan(100);
    await settled(page);
    // What was changed where it stands is what is drawn when the page is opened anew.
    const changed = await board();
    await page.reload();
    await settled(page);
    await expect.poll(board, SOON).toBe(changed);
    expect(await gust.inputValue()).toBe("19 kn");
    await page.locator("#undo").focus();
    await page.keyboard.press("Control+z");
    await expect.poll(() => gust.inputValue(), SOON).toBe(typed);
    await settled(page);
    await expect.poll(board, SOON).toBe(before);
    await page.keyboard.press("Control+Shift+z");
    await expect.poll(() => gust.inputValue(), SOON).toBe("19 kn");
    await page.locator("#undo").click();
    await expect.poll(() => gust.inputValue(), SOON).toBe(typed);
    await settled(page);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it("shows beside the field what is wrong with a text, keeps the old one, and gives it back by Esc", { timeout: 60_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    const wind = field(page, "limits.wind.never");
    const typed = await wind.inputValue();
    await wind.fill("quite a lot");
    await wind.press("Enter");
    await expect.poll(() => wind.getAttribute("aria-invalid"), SOON).toBe("true");
    const note = await page.textContent("#field-limits-wind-never-note");
    expect(note).toContain(`${typed} still stands`);
    expect(note).toMatch(/quite a lot/);
    const { text } = await (await fetch(`${server.address}/api/passages/demo`)).json();
    expect(text).not.toContain("quite a lot");
    await wind.press("Escape");
    expect(await wind.inputValue()).toBe(typed);
    expect(await wind.getAttribute("aria-invalid")).toBeNull();
    await page.context().close();
  });

  it("sets a limit that was not set, takes it out again, and says why it can't", { timeout: 90_000 }, async () => {
    const { page, faults } = await openPage(browser, server.address);
    await settled(page);
    const before = await page.textContent("#board");
    await page.selectOption("#set-limit", "visibility");
    await page.fill("#set-limit-happy", "quite far");
    await page.locator("#set-limit-now").click();
    await expect.poll(() => page.textContent(".set-limit .field-note"), SOON).toContain("quite far");
    await page.fill("#set-limit-happy", "4 nm");
    await page.fill("#set-limit-never", "1 nm");
    await page.press("#set-limit-never", "Enter");
    await expect.poll(() => field(page, "limits.visibility.happy").count(), SOON).toBe(1);
    expect(await field(page, "limits.visibility.happy").inputValue()).toBe("4 nm");
    // Nothing tells the visibility of the demo, and what is not judged is told.
    await expect.poll(() => page.textContent("#board"), SOON).toContain("isibility");
    await field(page, "limits.visibility.never").fill("");
    await field(page, "limits.visibility.never").press("Enter");
    await expect.poll(() => field(page, "limits.visibility.never").count(), SOON).toBe(0);
    await settled(page);
    await expect.poll(() => page.textContent("#board"), SOON).toBe(before);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it("stops a run when asked, and runs again", { timeout: 120_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    const speed = field(page, "boat.power.speed");
    const typed = await speed.inputValue();
    await speed.fill("6.3 kn");
    await speed.press("Enter");
    await page.locator("#cancel-run").click();
    await expect.poll(() => page.textContent("#run"), SOON).toContain("cancelled");
    await page.locator("#run-again").click();
    await settled(page);
    expect(await page.textContent("#boat")).toContain("6.3 kn");
    await page.locator("#undo").click();
    await expect.poll(() => speed.inputValue(), { timeout: 60_000 }).toBe(typed);
    await settled(page);
    await page.context().close();
  });

  it("gives the passage out as the file it is", { timeout: 60_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#export").click()]);
    const { text } = await (await fetch(`${server.address}/api/passages/demo`)).json();
    const file = join(home, "exported.yaml");
    await download.saveAs(file);
    const { readFileSync } = await import("node:fs");
    expect(readFileSync(file, "utf8")).toBe(text);
    await page.context().close();
  });

  it("says why a bad file is refused, and loses nothing", { timeout: 60_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    const before = await page.textContent("#board");
    const bad = join(home, "bad.grib2");
    writeFileSync(bad, "GRIB but not really a forecast at all");
    await page.setInputFiles("#file-picker", bad);
    await page.waitForSelector(".file-told.refused");
    const told = await page.textContent("#desk");
    expect(told).toContain("bad.grib2: refused");
    expect((await page.textContent("#desk .issues"))?.length).toBeGreaterThan(20);
    expect(await page.textContent("#board")).toBe(before);
    await page.context().close();
  });
});
