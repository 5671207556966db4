import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type LeaveAnswer, prepare, tryDeparture } from "../../src/core/plan/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import type { BoardRow } from "../../src/core/window/index.ts";
import { readPassage } from "../../src/formats/passage/index.ts";
import { curesInWords, gateFaultInWords, gatesInWords } from "../../src/words/index.ts";

/** Made by references/make_gates.py, which tries every half minute by the local clock, apart from this program: see its head. */
interface Reference {
  readonly departAt: string;
  readonly passed: readonly { readonly name: string; readonly reachedAt: string; readonly passedAt: string }[];
  readonly missed: { readonly name: string; readonly reachedAt: string; readonly lateMin: number; readonly earlyMin: number } | null;
  readonly berthAt: string | null;
  readonly cures: Readonly<Record<string, number | null>> | null;
}
const references = JSON.parse(readFileSync(new URL("references/gates.json", import.meta.url), "utf8")) as Readonly<
  Record<"chain" | "zonesNoWait" | "zonesWait" | "inlet", readonly Reference[]>
>;

/** Still water, a light air, 36 nm north along a meridian at 6 kn: six hours. Half an hour in at 4 kn; the berth is left at the open water's edge, unless `out`. */
function passageText({ gates, out = "", arrival = "UTC-3" }: { gates: string; out?: string; arrival?: string }): string {
  return `
athwart: passage/1
name: Stillwater
invented: yes
zones: {ship: ${arrival === "UTC-3" ? "UTC" : "UTC-10"}, arrival: ${arrival}}
boat: {name: Wren, goes: power, draught: 1.5 m, power: {speed: 6 kn}}
route:
  from: {name: South Mark, position: 44 42.0N 40 00.0W}
  to: {name: North Mark, position: 45 18.0N 40 00.0W}
  ${out}
  pilotageIn: {speed: 4 kn, points: [45 20.0N 40 00.0W]}
water: {sources: [{uniform: {set: 0, rate: 0 kn}}]}
weather:
  sources: [{periods: [{from: 2026-06-01 0000 UTC, until: 2026-06-12 0000 UTC, wind: S 5}]}]
limits: {wind: {happy: 12 kn, never: 20 kn}}
gates:
${gates}`;
}

function tried(text: string, departAt: string): { readonly row: BoardRow; readonly answer: LeaveAnswer } {
  const read = readPassage(text, { name: "stillwater.yaml" });
  if (!read.ok) throw new Error(read.issues.map((one) => `${one.path}: ${one.message}`).join("\n"));
  const prepared = prepare(read.value.passage, { water: [null], weather: [null] });
  if (!prepared.ok) throw new Error(prepared.issues.map((one) => one.message).join("\n"));
  const answer = tryDeparture(prepared.value, epochSeconds(Date.parse(departAt) / 1000));
  return { answer, row: answer.rows[0] as BoardRow };
}

/** Instants agree to the minute, and better: to ten seconds, which is what 36' of latitude differ from 36 nm by. */
function expectAt(at: number | null, expected: string): void {
  expect(at).not.toBeNull();
  expect(Math.abs((at as number) - Date.parse(expected) / 1000)).toBeLessThan(10);
}

function expectAs(row: BoardRow, reference: Reference, named: (name: string) => string = (name) => name): void {
  const { passed, fault, cures } = row.gates;
  const names = passed.map(({ gate, role }) => (role === "notice" ? `notice to ${gate.name}` : gate.name));
  expect(names).toEqual(reference.passed.map((one) => named(one.name)));
  passed.forEach((one, k) => {
    expectAt(one.reachedAt, (reference.passed[k] as Reference["passed"][number]).reachedAt);
    expectAt(one.passedAt, (reference.passed[k] as Reference["passed"][number]).passedAt);
  });
  if (reference.missed === null) {
    expect(fault).toBeNull();
    expectAt(row.arrivalAt, reference.berthAt as string);
    return;
  }
  if (fault?.kind !== "missed") throw new Error(`not missed: ${fault?.kind}`);
  expect(fault.gate.name).toBe(reference.missed.name);
  expectAt(fault.reachedAt, reference.missed.reachedAt);
  expect((fault.late?.seconds ?? Number.NaN) / 60).toBeCloseTo(reference.missed.lateMin, 0);
  expect((fault.early?.seconds ?? Number.NaN) / 60).toBeCloseTo(reference.missed.earlyMin, 0);
  const leaves = cures.flatMap((cure) => (cure.kind === "leave" ? [cure.seconds / 60] : []));
  expect({
    leaveEarlierMin: -(leaves.find((minutes) => minutes < 0) ?? Number.NaN) || null,
    leaveLaterMin: leaves.find((minutes) => minutes > 0) ?? null,
  }).toEqual({ leaveEarlierMin: reference.cures?.["leaveEarlierMin"], leaveLaterMin: reference.cures?.["leaveLaterMin"] });
  const speeds = cures.flatMap((cure) => (cure.kind === "speed" ? [Math.round(cure.speedShare * 100)] : []));
  expect(speeds.find((percent) => percent > 100) ?? null).toBe(reference.cures?.["fasterPercent"] ?? null);
  expect(speeds.find((percent) => percent < 100) ?? null).toBe(reference.cures?.["slowerPercent"] ?? null);
  expect(cures.flatMap((cure) => (cure.kind === "wait" ? [cure.seconds / 60] : []))[0] ?? null).toBe(
    reference.cures?.["lieOffMin"] ?? null,
  );
  expect(cures.map((cure) => Math.abs(cure.seconds))).toEqual(cures.map((cure) => Math.abs(cure.seconds)).sort((a, b) => a - b));
}

/*
 * 1. A bar, a bridge and an office, Thursday 4 June 2026, the port's clock three hours behind UTC.
 *
 * High water is at 11:30 by the port's clock; the skipper crosses the bar between two hours before it and one after: 09:30 to 12:30. One can
 * lie off it, three hours at most. A quarter of an hour and half a minute inside stands a bridge that opens on the hour and the half hour,
 * from 07:00 to 19:00; there is room to wait ten minutes before it and no more. The berth is 14.5 minutes beyond, and ten minutes from it
 * the office, open from 09:00 to 12:00 and from 13:30 to 17:00.
 *
 * Leaving at 06:12 UTC the boat is off the bar at 09:12 by the port's clock. It opens at 09:30; over it at once she would be at the bridge at
 * 09:45:30, a quarter of an hour before it opens, and can lie there for ten minutes only. So the bar makes her late and the bridge makes her
 * later: she lies off the bar until 09:34:30, is at the bridge at 09:50, passes it at 10:00, berths at 10:14:30 and stands in the office at
 * 10:24:30, which is open.
 *
 * Leaving at 09:22 UTC she is off the bar at 12:22 and over it. At the bridge at 12:37:30 she is 7.5 minutes late for 12:30. The next opening is
 * 13:00: she could lie ten minutes before the bridge, and off the bar until it shuts at 12:30, eight minutes later than she came; then she is at the
 * bridge at 12:45:30 and must go away at 12:55:30, 4.5 minutes too early. Nothing that can be waited cures it. Leaving eight minutes earlier
 * does: 12:29:30 at the bridge. Seven minutes would make 12:30:30: too late. Leaving later helps only with a later high water. At that of
 * 23:55 the bridge is shut for the night. At that of Friday, 12:20, the bar opens at 10:20; from it she is at the bridge at 10:35:30 at the
 * soonest, too late for 10:30, so that she takes 11:00, is there at 10:50 and over the bar at 10:34:30, and can be off it three hours before
 * that: 07:34:30. That is 19 h 12.5 min later than she was: 1153 whole minutes.
 */
describe("a bar, a bridge and an office", () => {
  const text = passageText({
    gates: `
  - name: the bar
    on: in
    wait: 3 h
    around: {times: [2026-06-04 1430 UTC, 2026-06-05 0255 UTC, 2026-06-05 1520 UTC], before: 2 h, after: 1 h}
  - name: the bridge
    on: in
    at: 15 min 30 s
    wait: 10 min
    opens: [{from: 0700, until: 1900, every: 30 min}]
  - name: the office
    on: in
    wait: 2 h
    opens: [{from: 0900, until: 1200}, {from: 1330, until: 1700}]
    office: {ashore: 10 min}
`,
  });

  it.each(references.chain.map((one) => [one.departAt, one] as const))("leaving %s", (departAt, reference) => {
    expectAs(tried(text, departAt).row, reference);
  });

  it("is told with times by the port's clock", () => {
    // 09:34:30 and 10:24:30, some seconds earlier or later.
    expect(gatesInWords(tried(text, "2026-06-04T06:12:00Z").row)).toMatch(
      /^the bar 09:3[45] UTC-3, waits 2[23]\u00a0min; the bridge 10:00 UTC-3, waits 10\u00a0min; the office 10:2[45] UTC-3$/,
    );
    const { row } = tried(text, "2026-06-04T09:22:00Z");
    expect(row.verdict.kind).toBe("closed");
    expect(gateFaultInWords(row.gates.fault as NonNullable<typeof row.gates.fault>)).toMatch(/too early for the bridge 13:00 UTC-3$/);
    expect(curesInWords(row.gates.cures)).toBe("cure: leave 8\u00a0min earlier");
  });

  it("counts the bridge as a door", () => {
    // Leaving 09:14 she is at the bridge half a minute before it opens at 12:30 and the bar shuts at 12:30: that half minute is all she has in hand.
    const { row } = tried(text, "2026-06-04T09:14:00Z");
    expect(row.inHand?.door).toEqual({ kind: "gate", name: "the bridge" });
    expect(Math.abs((row.inHand?.seconds ?? Number.NaN) - 30)).toBeLessThan(10);
    expect(row.verdict).toMatchObject({ kind: "marginal", decidedBy: { kind: "littleTime" } });
  });
});

/*
 * 2. Notice and an office across two zones, with a holiday.
 *
 * The ship keeps UTC-10; the port, across the date line, UTC+14: the same clock, a day ahead. The office, twenty minutes from the berth, is
 * open from 08:00 to 16:00 on weekdays and shut on Friday 5 June. It wants a day's notice within its hours, three days before at most.
 *
 * Leaving at 13:30:30 UTC on Thursday 4 June (03:30:30 on Thursday aboard) she berths at 20:00:30 UTC: 10:00:30 on Thursday aboard, but Friday the 5th in
 * port, the holiday. At the door at 10:20:30 she is 18 h 20 min 30 s late for Thursday's 16:00. The office opens on Monday the 8th at 08:00,
 * Sunday 18:00 UTC, 69 h 39.5 min on. So leaving 1101 minutes earlier cures it (1100 would make 16:00:30), and nothing later
 * within a day does. Where she may lie in port for four days under her yellow flag she passes on Monday.
 *
 * Notice of the berthing on Friday 10:00:30 in port is due by Thursday 10:00:30 there, within the hours: Wednesday 10:00:30 aboard.
 */
describe("notice and an office across two zones", () => {
  const text = (wait: string): string =>
    passageText({
      arrival: "UTC+14",
      gates: `
  - name: the office
    on: in
    wait: ${wait}
    opens: [{from: 0800, until: 1600, days: mon-fri}]
    holidays: [2026-06-05]
    office: {ashore: 20 min, notice: {least: 24 h, most: 72 h}}
`,
    });

  it.each(references.zonesNoWait.map((one) => [one.departAt, one] as const))("with nobody waiting, leaving %s", (departAt, reference) => {
    expectAs(tried(text("no"), departAt).row, reference);
  });

  it("waits from Friday to Monday in port where that can be done", () => {
    const [reference] = references.zonesWait as [Reference];
    const { row } = tried(text("4 d"), reference.departAt);
    expectAs(row, reference);
    expectAt(row.gates.passed[0]?.noticeBy ?? null, "2026-06-03T20:00:30Z");
    // A deadline is never rounded up.
    expect(gatesInWords(row)).toMatch(
      /^notice to the office by Thu 10:00 UTC\+14; the office Mon 08:00 UTC\+14, waits 69\u00a0h\u00a0(?:39|40)$/,
    );
  });

  it("has the notice given on Thursday for an arrival on Saturday, Friday being a holiday", () => {
    // Saturday has no hours: the office itself is missed, but the notice is due before Thursday 16:00 in port, 02:00 UTC.
    const { row } = tried(text("4 d"), "2026-06-05T13:30:30Z");
    expectAt(row.gates.passed[0]?.noticeBy ?? null, "2026-06-04T02:00:00Z");
  });
});

/*
 * 3. An inlet that closes the departure though the arrival is fine.
 *
 * A quarter of an hour from the berth lies the inlet, crossed within an hour and a half of high water: 21:35 on the eve, 10:00, 22:25 UTC. Nobody
 * waits in it. Leaving at 05:45:30 she is there at 06:00:30: 415.5 minutes after it shut at 23:05, 149.5 before it opens at 08:30. Every
 * limit is good on the whole way and the arrival falls into the day; she can't leave. 150 minutes later she can: 08:30:30. Earlier it would
 * be 416 minutes.
 */
describe("an inlet that closes the departure", () => {
  const text = passageText({
    out: "pilotageOut: {speed: 4 kn, points: [44 41.0N 40 00.0W]}",
    gates: `
  - name: the inlet
    on: out
    around: {times: [2026-06-03 2135 UTC, 2026-06-04 1000 UTC, 2026-06-04 2225 UTC, 2026-06-05 1050 UTC], before: 1 h 30 min, after: 1 h 30 min}
`,
  });

  it.each(references.inlet.map((one) => [one.departAt, one] as const))("leaving %s", (departAt, reference) => {
    expectAs(tried(text, departAt).row, reference);
  });

  it("is closed by the gate, with every margin untroubled", () => {
    const { row } = tried(text, "2026-06-04T05:45:30Z");
    expect(row.verdict).toMatchObject({ kind: "closed", decidedBy: { kind: "gate" } });
    expect(row.verdict.smallestMargin).toBeGreaterThan(1);
    expect(curesInWords(row.gates.cures)).toBe("cure: leave 2\u00a0h\u00a030 later");
  });
});
