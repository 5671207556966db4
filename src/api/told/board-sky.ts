import { addDays, firstInstantAtOrPast, formatInstant } from "../../core/calendar/index.ts";
import { type Light, lightAt, lightOver } from "../../core/earth/index.ts";
import type { Passage } from "../../core/plan/index.ts";
import { epochSeconds } from "../../core/units/index.ts";
import { clock } from "../../words/index.ts";
import { iso } from "../instant.ts";
import type { LineTold } from "./board-told.ts";

/** The twilights told as one. */
export const LIGHTS: Readonly<Record<Light, LineTold["light"]>> = { day: "day", civil: "twilight", nautical: "twilight", night: "night" };

/** Sun, light and clocks over one passage's board, reckoned once: no limit changes them. */
export class BoardSky {
  private readonly passage: Pick<Passage, "shipZone" | "from" | "to">;
  private readonly lights = new Map<number, LineTold["light"]>();
  private readonly suns = new Map<string, string | null>();
  private readonly leaves = new Map<number, Pick<LineTold, "departAt" | "clock">>();

  constructor(passage: Pick<Passage, "shipZone" | "from" | "to">) {
    this.passage = passage;
  }

  /** How light it is where open water begins. */
  lightAt(departAt: number): LineTold["light"] {
    const known = this.lights.get(departAt);
    if (known !== undefined) return known;
    const light = LIGHTS[lightAt(epochSeconds(departAt), this.passage.from.position)];
    this.lights.set(departAt, light);
    return light;
  }

  /** When a departure leaves, as its line tells it. */
  leavesAt(departAt: number): Pick<LineTold, "departAt" | "clock"> {
    const known = this.leaves.get(departAt) ?? { departAt: iso(departAt), clock: clock(departAt, this.passage.shipZone) };
    this.leaves.set(departAt, known);
    return known;
  }

  /** Sunrise to sunset at the entrance on the day of an instant, by ship's time; null where the sun does not both rise and set. */
  sunOf(at: number): string | null {
    const zone = this.passage.shipZone;
    const { date, isoDate } = formatInstant(epochSeconds(at), zone);
    const known = this.suns.get(isoDate);
    if (known !== undefined) return known;
    const day = { from: firstInstantAtOrPast(date, 0, zone), until: firstInstantAtOrPast(addDays(date, 1), 0, zone) };
    const { sun } = lightOver(day, this.passage.to.position);
    const told =
      sun.kind !== "crosses" || sun.upAt === null || sun.downAt === null ? null : `${clock(sun.upAt, zone)} to ${clock(sun.downAt, zone)}`;
    this.suns.set(isoDate, told);
    return told;
  }
}
