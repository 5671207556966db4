import type { HorizonDay } from "../core/earth/index.ts";
import { clock, zoneLabel } from "./say-time.ts";

/** Which line of altitude a body's day is told for. */
export type SkyLine = "sun" | "civil" | "nautical" | "moon";

/** What a day without a crossing means, in words. */
const THROUGHOUT: Readonly<Record<SkyLine, { readonly above: string; readonly below: string }>> = {
  sun: { above: "up all day: the sun does not set", below: "down all day: the sun does not rise" },
  civil: { above: "all night: never darker than civil twilight", below: "none: the sun stays more than 6° below the horizon" },
  nautical: { above: "all night: never darker than nautical twilight", below: "none: the sun stays more than 12° below the horizon" },
  moon: { above: "up all day", below: "down all day" },
};

/** The times at which a body goes up or down over a line, each with its zone: `06:10 UTC-8`; `none` on a day without. */
export function crossingsInWords(day: HorizonDay, going: "up" | "down", zone: string): string {
  if (day.kind !== "crosses") return "";
  const times = day.crossings.filter((one) => one.going === going).map(({ at }) => `${clock(at, zone)} ${zoneLabel(at, zone)}`);
  return times.length === 0 ? "none" : times.join(", ");
}

/** What stands in place of times on a day without any; null where the line is crossed. */
export function throughoutInWords(day: HorizonDay, line: SkyLine): string | null {
  if (day.kind === "crosses") return null;
  return day.kind === "aboveThroughout" ? THROUGHOUT[line].above : THROUGHOUT[line].below;
}
