// @ts-check
/** @typedef {{ name: string, ph: string, ts: number, pid: number, id2?: { local?: string }, args?: { event_latency?: { event_type?: string } } }} TraceEvent */

/**
 * The browser's own record of input and frames, from now until it is ended.
 * @param {import("playwright-core").Page} page
 */
export async function traced(page) {
  const session = await page.context().newCDPSession(page);
  /** @type {TraceEvent[]} */
  const events = [];
  session.on("Tracing.dataCollected", ({ value }) => events.push(.../** @type {TraceEvent[]} */ (/** @type {unknown} */ (value))));
  await session.send("Tracing.start", { traceConfig: { includedCategories: ["input", "benchmark"] }, transferMode: "ReportEvents" });
  return {
    async end() {
      const complete = new Promise((resolve) => session.once("Tracing.tracingComplete", resolve));
      await session.send("Tracing.end");
      await complete;
      await session.detach();
      return events;
    },
  };
}

/**
 * From each input of a type to the presented frame that answers it, milliseconds, as the browser notes it.
 * @param {readonly TraceEvent[]} events
 * @param {string} type
 */
export function latenciesOf(events, type) {
  const noted = events.filter(({ name }) => name === "EventLatency").sort((one, other) => one.ts - other.ts);
  return noted
    .filter(({ ph, args }) => ph === "b" && args?.event_latency?.event_type === type)
    .flatMap((begun) => {
      const end = noted.find(
        ({ ph, ts, pid, id2 }) => ph === "e" && pid === begun.pid && id2?.local === begun.id2?.local && ts >= begun.ts,
      );
      return end === undefined ? [] : [(end.ts - begun.ts) / 1000];
    });
}
