import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { newHome, openPage, SOON, type Started, settled, startBrowser, startServer, whyNoPage } from "./started.ts";

const gust = (page: Page) => page.locator("#field-limits-gust-never");

describe.skipIf(whyNoPage !== null)("a server that is killed", () => {
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

  it("is said plainly to be gone; what is saved stands, what is typed meanwhile is sent when it is back", {
    timeout: 200_000,
  }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    await gust(page).fill("27 kn");
    await gust(page).press("Enter");
    await expect.poll(() => page.textContent("#saved"), SOON).toBe("Saved");
    await server.kill();

    const wind = page.locator("#field-limits-wind-never");
    await wind.fill("21 kn");
    await wind.press("Enter");
    await expect.poll(() => page.locator("#notice").isVisible(), SOON).toBe(true);
    expect(await page.textContent("#notice")).toContain("stopped answering");
    expect(await page.textContent("#saved")).toContain("Not saved yet");
    expect(await page.locator("#board tr[data-at]").count()).toBeGreaterThan(0);

    server = await startServer(home, server.port);
    await expect.poll(() => page.locator("#notice").isVisible(), SOON).toBe(false);
    await expect.poll(() => page.textContent("#saved"), SOON).toBe("Saved");
    const { text } = await (await fetch(`${server.address}/api/passages/demo`)).json();
    expect(text).toMatch(/gust: \{[^}]*never: 27 kn/);
    expect(text).toMatch(/wind: \{[^}]*never: 21 kn/);
    await settled(page);
    expect(await gust(page).inputValue()).toBe("27 kn");
    await page.context().close();
  });

  it("loses nothing that was typed while it was gone, though the page is closed before it is back", { timeout: 200_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    await server.kill();
    await gust(page).fill("26 kn");
    await gust(page).press("Enter");
    await expect.poll(() => page.textContent("#saved"), SOON).toContain("Not saved yet");
    server = await startServer(home, server.port);
    const again = await page.context().newPage();
    await page.close();
    await again.goto(server.address);
    await settled(again);
    await expect
      .poll(async () => (await (await fetch(`${server.address}/api/passages/demo`)).json()).text, SOON)
      .toMatch(/gust: \{[^}]*never: 26 kn/);
    await again.context().close();
  });
});
