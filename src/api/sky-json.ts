import type { HorizonDay, LightDay } from "../core/earth/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";

/** A local day's light at a place; instants in UTC epoch seconds. */
export interface SkyAnswer {
  /** `2027-04-08`, and the zone whose day it is. */
  readonly isoDate: string;
  readonly zone: string;
  readonly place: { readonly name: string | null; readonly latitudeDeg: number; readonly longitudeDeg: number };
  readonly from: number;
  readonly until: number;
  readonly light: LightDay;
  readonly moon: HorizonDay;
  /** 0 new to 1 full, at the middle of the day. */
  readonly moonLitShare: number;
  readonly moonLitAt: number;
  readonly moonWaxing: boolean;
}

/** Sun, twilights and moon of a local day as JSON, `athwart.sky/1`. */
export function skyJson(answer: SkyAnswer) {
  const day = (one: HorizonDay) =>
    one.kind === "crosses"
      ? {
          kind: one.kind,
          upAt: isoOrNull(one.upAt),
          downAt: isoOrNull(one.downAt),
          crossings: one.crossings.map(({ at, going }) => ({ at: iso(at), going })),
        }
      : { kind: one.kind, upAt: null, downAt: null, crossings: [] };
  return {
    schema: "athwart.sky/1" as const,
    date: answer.isoDate,
    zone: answer.zone,
    place: {
      name: answer.place.name,
      latitudeDeg: rounded(answer.place.latitudeDeg, 6),
      longitudeDeg: rounded(answer.place.longitudeDeg, 6),
    },
    from: iso(answer.from),
    until: iso(answer.until),
    sun: day(answer.light.sun),
    civilTwilight: day(answer.light.civil),
    nauticalTwilight: day(answer.light.nautical),
    moon: day(answer.moon),
    moonLit: { share: rounded(answer.moonLitShare, 3), at: iso(answer.moonLitAt), waxing: answer.moonWaxing },
  };
}
