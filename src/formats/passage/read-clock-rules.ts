import {
  type ClockRule,
  type ClockRules,
  type LocalDate,
  parseLocalDate,
  parseSeason,
  parseWeekdays,
  type RuleOfDay,
} from "../../core/calendar/index.ts";
import { parseDuration } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { parseTimeOfDay } from "./quantities.ts";
import type { PassageData } from "./schema.ts";

type GateData = NonNullable<PassageData["gates"]>[number];
type GateCursor = Cursor<GateData>;
type Rules = NonNullable<GateData["opens"]>;
type Openings = Omit<Rules[number], "days" | "season">;
type Shut = NonNullable<GateData["shut"]>[number];

const DAILY = [1, 2, 3, 4, 5, 6, 7] as const;
/** An opening that stays for longer is stated as hours. Ours. */
const LONGEST_STAY_SECONDS = 12 * 3600;
const SHORTEST_EVERY_SECONDS = 60;

/** `opens` with its holidays; null where none is given. Issues are put on the cursor's page. */
export function readOpens(gate: GateCursor, zone: string): ClockRules | null {
  const opens = gate.at("opens");
  const rules = opens.items().flatMap((cursor): ClockRule[] => {
    const held = daysOf(cursor);
    const rule = readRule(cursor);
    return held === undefined || rule === undefined ? [] : [{ ...held, opens: rule }];
  });
  const onHolidays = gate
    .at("onHolidays")
    .items()
    .flatMap((cursor) => readRule(cursor) ?? []);
  const holidays = gate
    .at("holidays")
    .items()
    .flatMap((cursor): LocalDate[] => [cursor.read(parseLocalDate)].filter((date) => date !== undefined));
  if (gate.at("holidays").isGiven && !opens.isGiven) outOfPlace(gate, "holidays", "opens");
  if (gate.at("onHolidays").isGiven && !gate.at("holidays").isGiven) outOfPlace(gate, "onHolidays", "holidays");
  return opens.isGiven ? { zone, rules, holidays, onHolidays } : null;
}

/** `shut`; null where none is given. Holidays lift it. */
export function readShut(gate: GateCursor, zone: string, holidays: readonly LocalDate[]): ClockRules | null {
  const shut = gate.at("shut");
  const rules = shut.items().flatMap((cursor): ClockRule[] => {
    const held = daysOf(cursor);
    const hours = readHours(cursor);
    return held === undefined || hours === undefined ? [] : [{ ...held, opens: { kind: "hours", ...hours } }];
  });
  return shut.isGiven ? { zone, rules, holidays, onHolidays: [] } : null;
}

function outOfPlace(gate: GateCursor, key: "holidays" | "onHolidays", wanted: string): void {
  const at = gate.at(key);
  at.complain("key-out-of-place", `\`${at.path}\` goes with \`${wanted}\`, and there is none here`);
}

type DaysCursor = Cursor<Pick<Shut, "days" | "season">>;

function daysOf(cursor: DaysCursor): Pick<ClockRule, "weekdays" | "season"> | undefined {
  const weekdays = cursor.at("days").isGiven ? cursor.at("days").read(parseWeekdays) : DAILY;
  const season = cursor.at("season").isGiven ? cursor.at("season").read(parseSeason) : null;
  return weekdays === undefined || season === undefined ? undefined : { weekdays, season };
}

function readHours(cursor: Cursor<Pick<Shut, "from" | "until">>): { fromMinutes: number; untilMinutes: number } | undefined {
  const from = cursor.at("from").read(parseTimeOfDay);
  const until = cursor.at("until").read(parseTimeOfDay);
  if (from === undefined || until === undefined) return undefined;
  if (from === until) {
    cursor.complain("hours-without-length", `\`${cursor.path}\` begins and ends at ${String(cursor.at("from").value)}`);
    return undefined;
  }
  return { fromMinutes: from / 60, untilMinutes: until / 60 };
}

/** Hours, times, or times at even spaces. */
function readRule(cursor: Cursor<Openings>): RuleOfDay | undefined {
  cursor.needsOneOf(["from", "at"]);
  const every = cursor.at("every");
  const stays = cursor.at("stays");
  const staysSeconds = stays.isGiven ? stays.read((text, path) => parseDuration(text, path, { min: 0, max: LONGEST_STAY_SECONDS })) : 0;
  if (stays.isGiven && cursor.at("from").isGiven && !every.isGiven)
    stays.complain("key-out-of-place", `\`${stays.path}\` goes with \`at\` or \`every\`; hours stay open by themselves`);
  if (cursor.at("at").isGiven) {
    for (const key of ["until", "every"] as const) {
      const other = cursor.at(key);
      if (other.isGiven) other.complain("key-out-of-place", `\`${other.path}\` goes with \`from\`, and \`at\` stands here`);
    }
    const times = cursor
      .at("at")
      .items()
      .map((one) => one.read(parseTimeOfDay));
    if (staysSeconds === undefined || times.some((one) => one === undefined)) return undefined;
    return { kind: "times", minutes: times.flatMap((one) => (one === undefined ? [] : [one / 60])), staysSeconds };
  }
  if (!cursor.at("from").isGiven) return undefined;
  if (!cursor.at("until").isGiven) {
    cursor
      .at("until")
      .complain("missing-key", `\`${cursor.path}\` has \`from\` and no \`until\``, "Add `until`, or write `at` for one time.");
    return undefined;
  }
  const hours = readHours(cursor);
  const everySeconds = every.read((text, path) => parseDuration(text, path, { min: SHORTEST_EVERY_SECONDS, max: 86400 }));
  if (hours === undefined || staysSeconds === undefined || (every.isGiven && everySeconds === undefined)) return undefined;
  if (everySeconds === undefined) return { kind: "hours", ...hours };
  const last = hours.untilMinutes > hours.fromMinutes ? hours.untilMinutes : hours.untilMinutes + 1440;
  const minutes: number[] = [];
  for (let at = hours.fromMinutes; at <= last; at += everySeconds / 60) minutes.push(at);
  return { kind: "times", minutes, staysSeconds };
}
