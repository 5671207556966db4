/**
 * Runs work once the next frame has been painted, so that what answers a key is seen before what is slow is drawn. Of several
 * works asked for before that, only the last is done.
 */
export function afterPaint(): { readonly ask: (work: () => void) => void } {
  let latest: (() => void) | null = null;
  return {
    ask(work) {
      const waiting = latest !== null;
      latest = work;
      if (waiting) return;
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => {
          const now = latest;
          latest = null;
          channel.port1.close();
          now?.();
        };
        channel.port2.postMessage(null);
      });
    },
  };
}

/** Runs work when the browser has nothing better to do, and at the latest in two seconds. */
export function whenIdle(work: () => void): void {
  if ("requestIdleCallback" in window) window.requestIdleCallback(work, { timeout: 2000 });
  else setTimeout(work, 200);
}
