import { bad, good, issue, type Parsed } from "../core/answers/index.ts";
import { addDays, firstInstantAtOrPast, isoDate, parseLocalDate, parseZone } from "../core/calendar/index.ts";
import { nearestWord, quoted } from "../core/units/index.ts";
import { type StationFacts, spansSlower, streamNamed, type TidalStream, type Tide, tideNamed } from "../core/water/index.ts";
import { type OpenedWaters, openWaters } from "../storage/index.ts";
import { SLACK_BELOW_MPS, type StreamAnswer } from "./stream-answer.ts";
import { streamJson } from "./stream-json.ts";
import { streamText } from "./text/stream-text.ts";
import { tideText } from "./text/tide-text.ts";
import type { TideAnswer, TideFlags } from "./tide-answer.ts";
import { tideJson } from "./tide-json.ts";
import { Typed } from "./typed.ts";

/** An answer, to be told as text or as JSON. */
export interface ToldEitherWay {
  text(): string;
  json(): object;
}

/** The tide or the stream of a passage file that is asked for, on a day. */
export async function passageTideOf(path: string | undefined, flags: TideFlags): Promise<Parsed<ToldEitherWay>> {
  const typed = new Typed();
  if (path === undefined)
    typed.issues.push(issue("PASSAGE", "argument-missing", "--tide and --stream are of a passage file, and none was named"));
  if (flags.near !== undefined || flags.station !== undefined)
    typed.issues.push(issue("PASSAGE", "options-clash", "either a passage file, or --near or --station"));
  if ((flags.tide === undefined) === (flags.stream === undefined))
    typed.issues.push(
      flags.tide === undefined
        ? issue("--tide", "argument-missing", "neither --tide nor --stream was typed", 'Add one, as in --tide "Port Ansa".')
        : issue("--stream", "options-clash", "either --tide or --stream, not both"),
    );
  const date = typed.need("--on", flags.on, "2027-04-08", parseLocalDate);
  const typedZone = typed.read("--zone", flags.zone, parseZone);
  if (typed.issues.length > 0 || path === undefined || date === null) return bad(...typed.issues);
  const opened = await openWaters(path);
  if (!opened.ok) return opened;
  const { passage } = opened.value.document;
  const zone = typedZone ?? passage.shipZone;
  const [from, until] = [firstInstantAtOrPast(date, 0, zone), firstInstantAtOrPast(addDays(date, 1), 0, zone)];
  const day = { isoDate: isoDate(date), zone, from, until };
  return flags.tide !== undefined ? tideTold(opened.value, flags.tide, day) : streamTold(opened.value, flags.stream ?? "", day);
}

type Day = Pick<TideAnswer, "isoDate" | "zone" | "from" | "until">;

function tideTold({ waters }: OpenedWaters, name: string, day: Day): Parsed<ToldEitherWay> {
  const tide = tideNamed(waters.tides, name);
  if (tide === null) return bad(noSuch("--tide", "tide", name, waters.tides));
  const answer: TideAnswer = {
    ...day,
    place: null,
    station: { ...factsOf(tide), name, datum: tide.datum, region: "", country: "", doubts: [], referenceId: tide.reference?.id ?? null },
    distanceNm: null,
    reference: tide.reference === null ? null : { id: tide.reference.id, name: tide.reference.name },
    turns: tide.highsAndLows(day.from, day.until),
    others: [],
  };
  return good({ text: () => tideText(answer), json: () => tideJson(answer) });
}

function factsOf({ station: { id, position, zone, credit, licence } }: Tide): Omit<StationFacts, "name"> {
  return { id, position, zone, credit, licence };
}

/** Hours are told from the beginning of the day on, and its end. */
const HOUR_SECONDS = 3600;

function streamTold({ waters, document }: OpenedWaters, name: string, day: Day): Parsed<ToldEitherWay> {
  const stream: TidalStream | null = streamNamed(waters.streams, name);
  if (stream === null) return bad(noSuch("--stream", "stream", name, waters.streams));
  const hours: StreamAnswer["hours"][number][] = [];
  for (let at: number = day.from; at <= day.until; at += HOUR_SECONDS)
    hours.push({ at, motion: stream.vectorAt(at), alongMps: stream.alongAt(at) });
  const answer: StreamAnswer = {
    ...day,
    passage: document.passage.name,
    stream,
    turns: stream.turns(day.from, day.until).map((turn) => ({ ...turn, motion: stream.vectorAt(turn.at) })),
    hours,
    slower: spansSlower(stream, SLACK_BELOW_MPS, day.from, day.until),
    doubts: stream.doubts(day.from, day.until),
    credit: "as stated in the passage file",
  };
  return good({ text: () => streamText(answer), json: () => streamJson(answer) });
}

function noSuch(flag: string, what: string, name: string, list: readonly { readonly name: string }[]) {
  const names = list.map((one) => one.name);
  const near = nearestWord(name, names);
  const has = names.length === 0 ? "it has none" : near !== null ? `did you mean ${near}?` : `it has ${names.slice(0, 6).join(", ")}`;
  return issue(flag, "name-unknown", `${quoted(name)} is no ${what} of the passage file; ${has}`);
}
