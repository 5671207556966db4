// @ts-check
// The README's table of what each way costs on the demo, from answers of `cross --json`.

/** Departures that the table shows, ship's time: before the blow, in it, and after it. */
export const TABLE_DEPARTURES = ["2027-04-06 2100", "2027-04-07 2200", "2027-04-11 2100"];

const BEGIN = "<!-- ways: made by npm run docs -->";
const END = "<!-- ways: end -->";

/** @type {Readonly<Record<string, string>>} */
const NAMES = {
  oneHeading: "one heading",
  squareInLanes: "square in the lanes",
  acrossThenTurn: "straight across, then turn",
  holdTrack: "hold the track",
  bowOnDestination: "bow on the destination",
  changingHeadings: "changing headings, each held an hour",
};

/**
 * @typedef {{ name: string, arrives: boolean, durationSeconds?: number }} TableWay
 * @typedef {{ ways: readonly TableWay[], fastest: { arrives: boolean, durationSeconds?: number } | null, advised: string | null }} TableAnswer
 */

/**
 * A row a way, a column a departure: the time in open water, and what it costs against the fastest.
 * @param {readonly TableAnswer[]} answers one for each of `TABLE_DEPARTURES`
 */
export function waysTable(answers) {
  const names = [...new Set(answers.flatMap(({ ways }) => ways.map(({ name }) => name)))];
  const head = TABLE_DEPARTURES.map((at) => `${at.slice(8, 10)} April, ${at.slice(11, 13)}:${at.slice(13)}`);
  const rows = names.map((name) => [NAMES[name] ?? name, ...answers.map((answer) => costOf(answer, name))]);
  const best = ["the fastest there is", ...answers.map(({ fastest }) => (fastest?.arrives ? clock(fastest.durationSeconds ?? 0) : "none"))];
  const lines = [["way", ...head], head.concat("").map(() => "---"), ...rows, best];
  return lines.map((cells) => `| ${cells.join(" | ")} |`).join("\n");
}

/**
 * @param {TableAnswer} answer
 * @param {string} name
 */
function costOf({ ways, fastest, advised }, name) {
  const way = ways.find((one) => one.name === name);
  if (way === undefined) return "–";
  if (!way.arrives) return "can't be done";
  const seconds = way.durationSeconds ?? 0;
  const cost = Math.round((seconds - (fastest?.durationSeconds ?? seconds)) / 60);
  const told = `${clock(seconds)}, ${cost < 1 ? "under 1 min" : `+${cost} min`}`;
  return name === advised ? `**${told}**` : told;
}

/** @param {number} seconds */
function clock(seconds) {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")}`;
}

/**
 * The text with its table made anew. Throws where it has no place for one.
 * @param {string} text
 * @param {string} table
 */
export function withTable(text, table) {
  const from = text.indexOf(BEGIN);
  const until = text.indexOf(END);
  if (from < 0 || until < from) throw new Error("the text has no place for the table of ways");
  return `${text.slice(0, from + BEGIN.length)}\n\n${table}\n\n${text.slice(until)}`;
}
