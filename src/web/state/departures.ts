import type { DepartureTold } from "../../api/index.ts";
import type { Answered } from "../ask/answered.ts";
import { shelfOf } from "./shelf.ts";

/** So many departures are kept: a day or two of hourly lines on either side. */
const ROOM = 40;
/** While a key is held down, departures that are only passed through aren't asked for. */
const REST_MILLISECONDS = 70;
/** Neighbours wait so many rests more: the desk reckons one thing at a time, and a limit typed meanwhile must not stand behind them. */
const RESTS_BEFORE_NEIGHBOURS = 8;

export interface Departures {
  /** Wants this departure shown, with these neighbours fetched when it is there; the answer comes by `shown`, at once where it is kept. */
  readonly want: (departAt: string, neighbours: readonly string[]) => void;
  /** Everything kept is out of date: the passage, its limits or its sources have changed. */
  readonly forget: () => void;
}

export interface DepartureListener {
  readonly shown: (departAt: string, departure: DepartureTold) => void;
  /** It isn't kept: an older one stands for the moment. */
  readonly waiting: (departAt: string) => void;
  readonly refused: (departAt: string, answer: Exclude<Answered<DepartureTold>, { kind: "told" | "dropped" }>) => void;
}

type Fetcher = (departAt: string, signal: AbortSignal) => Promise<Answered<DepartureTold>>;

/** Fetches and keeps departures; of answers that come late only the one still wanted is shown. */
export function departuresOf(fetcher: Fetcher, listener: DepartureListener, room = ROOM, restMilliseconds = REST_MILLISECONDS): Departures {
  const shelf = shelfOf<DepartureTold>(room);
  let wanted: string | null = null;
  let age = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let going = new AbortController();

  const fetchOne = async (departAt: string, signal: AbortSignal, bornAt: number): Promise<Answered<DepartureTold>> => {
    const answer = await fetcher(departAt, signal);
    if (bornAt !== age) return { kind: "dropped" };
    if (answer.kind === "told") shelf.put(departAt, answer.value);
    return answer;
  };
  const fetchNeighbours = async (departAt: string, neighbours: readonly string[], signal: AbortSignal): Promise<void> => {
    await new Promise((resolve) => setTimeout(resolve, RESTS_BEFORE_NEIGHBOURS * restMilliseconds));
    for (const neighbour of neighbours) {
      if (wanted !== departAt || signal.aborted) return;
      if (shelf.has(neighbour)) continue;
      const answer = await fetchOne(neighbour, signal, age);
      if (answer.kind !== "told") return;
    }
  };
  return {
    want(departAt, neighbours) {
      wanted = departAt;
      clearTimeout(timer);
      going.abort();
      going = new AbortController();
      const { signal } = going;
      const kept = shelf.take(departAt);
      if (kept !== undefined) listener.shown(departAt, kept);
      else listener.waiting(departAt);
      timer = setTimeout(async () => {
        if (kept === undefined) {
          const answer = await fetchOne(departAt, signal, age);
          if (wanted !== departAt || signal.aborted || answer.kind === "dropped") return;
          if (answer.kind === "told") listener.shown(departAt, answer.value);
          else return listener.refused(departAt, answer);
        }
        await fetchNeighbours(departAt, neighbours, signal);
      }, restMilliseconds);
    },
    forget() {
      age += 1;
      shelf.clear();
    },
  };
}
