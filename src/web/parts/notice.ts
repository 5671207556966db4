import { byId, fill } from "../dom/element.ts";

/** Says across the head of the page that the program has stopped answering; null takes it away. */
export function notice(words: string | null): void {
  const place = byId("notice");
  place.hidden = words === null;
  fill(place, words ?? "");
}
