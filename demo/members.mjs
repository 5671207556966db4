// @ts-check
/** The ten forecasts: the control, and nine that depart from it by lots drawn from a generator of our own, the same on every machine. */
import { departuresByLot } from "./shared/lots.mjs";

export const MEMBER_COUNT = 10;
const FIRST_LOT = 20270406;

/** One departure a member, the control first. */
export const departures = () => departuresByLot(FIRST_LOT, MEMBER_COUNT);
