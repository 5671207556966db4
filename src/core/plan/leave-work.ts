import {
  CHANCE_DEFAULTS,
  type ChanceErrors,
  type CrossingsTried,
  DepartureKeeper,
  type KeptDeparture,
  type OrderToTry,
  tryCrossings,
} from "../window/index.ts";
import type { Passage } from "./passage.ts";
import type { Prepared } from "./prepare.ts";

/** What a passage's chances are reckoned with: what the skipper states, and the defaults for the rest. */
export function chanceErrorsOf({ chance }: Passage): ChanceErrors {
  return { ...CHANCE_DEFAULTS, ...chance };
}

/**
 * The work behind an answer, one departure at a time and each by itself, so that it comes out the same in whatever order and wherever it
 * is done. Holds the samplers that serve it all.
 */
export class LeaveWork {
  private readonly prepared: Prepared;
  private readonly keeper: DepartureKeeper;

  constructor(prepared: Prepared) {
    this.prepared = prepared;
    this.keeper = new DepartureKeeper(prepared.trialOf, prepared.weather);
  }

  /** Runs and feels a departure; `onlyLater`: one that only serves the time in hand of those before it. */
  keep(departAt: number, onlyLater: boolean): KeptDeparture {
    return onlyLater ? this.keeper.keepOnlyLater(departAt) : this.keeper.keep(departAt);
  }

  /** Tries a departure's order many times, with everything else other than planned. */
  tryOrder(order: OrderToTry): CrossingsTried {
    const { passage, weather } = this.prepared;
    const around = this.keeper.surroundings.over({ from: order.departAt, until: order.arrivalAt });
    return tryCrossings(order, around, weather, chanceErrorsOf(passage), passage.limits);
  }
}
