import { byId } from "./element.ts";

/** Words that follow each other sooner than this are one announcement: the last. */
const SETTLE_MILLISECONDS = 500;

let timer = 0;

/** Has a screen reader say something when it next pauses. */
export function announce(words: string): void {
  clearTimeout(timer);
  timer = window.setTimeout(() => {
    const region = byId("announcements");
    // The same words twice are two announcements.
    region.textContent = region.textContent === words ? `${words}\u00a0` : words;
  }, SETTLE_MILLISECONDS);
}
