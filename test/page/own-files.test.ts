import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { root } from "../house/source-files.ts";
import { newHome, openPage, SOON, type Started, settled, startBrowser, startServer, whyNoPage } from "./started.ts";

const example = (name: string): string => join(root, "examples/letter-only", name);

/** A letter for the demo's week, all of it understood. */
const harbourLetter = `Issued 2027-04-06 0730 UTC-8
Zone UTC-8

TUE 0400-2400 SE 8-12 G16 SEA 3 ft @ 8 s
WED 0000-2400 SE-E 8-12 G16 SEA 3 ft @ 8 s
THU 0000-2400 E 8-12 G15 SEA 3 ft @ 8 s
`;

/** Drops files on the page as a hand would, from outside the browser. */
async function drop(
  page: import("playwright-core").Page,
  files: readonly { readonly name: string; readonly text: string }[],
): Promise<void> {
  await page.evaluate((given) => {
    const transfer = new DataTransfer();
    for (const { name, text } of given) transfer.items.add(new File([text], name));
    for (const type of ["dragenter", "dragover", "drop"])
      document.body.dispatchEvent(new DragEvent(type, { dataTransfer: transfer, bubbles: true, cancelable: true }));
  }, files);
}

describe.skipIf(whyNoPage !== null)("the skipper's own files", () => {
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

  it("opens a passage that is dropped with what it names; what it lacks may be given after", { timeout: 180_000 }, async () => {
    const { page, faults } = await openPage(browser, server.address);
    await settled(page);
    await drop(page, [{ name: "passage.yaml", text: readFileSync(example("passage.yaml"), "utf8") }]);
    await page.waitForSelector("#run .issues");
    expect(await page.textContent("#run")).toContain("letter.txt");
    expect(await page.textContent("#title")).toBe("Pelu Road to Port Ansa, by the letter alone");
    await drop(page, [{ name: "letter.txt", text: readFileSync(example("letter.txt"), "utf8") }]);
    await expect.poll(() => page.textContent("#desk"), SOON).toContain("A forecaster's letter");
    await settled(page);
    expect(await page.textContent("#answer")).toMatch(/\d\d:\d\d/);
    await expect.poll(() => page.evaluate(() => location.hash), SOON).not.toContain("#demo");
    expect(faults).toEqual([]);

    await page.locator(".passages-fold > summary").click();
    await page.locator(".passages").getByRole("button", { name: "Pelu Road to Port Ansa", exact: true }).click();
    await expect.poll(() => page.textContent("#title"), SOON).toBe("Pelu Road to Port Ansa");
    await settled(page);
    await page.context().close();
  });

  it("looks into a letter for the open passage, and names it first when told to; undo takes it back", { timeout: 180_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    const before = await page.textContent("#sources");
    writeFileSync(join(home, "harbour-letter.txt"), harbourLetter);
    await page.setInputFiles("#file-picker", join(home, "harbour-letter.txt"));
    await page.waitForSelector(".file-told");
    expect(await page.textContent(".file-told")).toContain("A forecaster's letter");
    await page.getByRole("button", { name: "Use it first for wind and sea" }).click();
    await expect.poll(() => page.textContent("#desk"), { timeout: 30_000 }).toContain("Named first");
    await expect.poll(() => page.textContent("#sources"), { timeout: 60_000 }).toContain("harbour-letter.txt");
    await settled(page);
    await page.locator("#undo").click();
    await expect.poll(() => page.textContent("#sources"), { timeout: 60_000 }).toBe(before);
    await page.context().close();
  });

  it("shows a name with markup in it as text", { timeout: 120_000 }, async () => {
    const { page, faults } = await openPage(browser, server.address);
    await settled(page);
    const hostile = `<img src=x onerror="document.title='taken'">`;
    const text = readFileSync(example("passage.yaml"), "utf8").replace(/^name: .*$/m, `name: ${JSON.stringify(hostile)}`);
    await drop(page, [
      { name: "<b>.yaml", text },
      { name: "letter.txt", text: readFileSync(example("letter.txt"), "utf8") },
    ]);
    await expect.poll(() => page.textContent("#title"), { timeout: 60_000 }).toBe(hostile);
    await settled(page);
    expect(await page.locator("img").count()).toBe(0);
    expect(await page.title()).not.toBe("taken");
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
