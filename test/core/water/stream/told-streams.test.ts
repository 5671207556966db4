import { describe, expect, it } from "vitest";
import { knotsFromMps, mpsFromKnots } from "../../../../src/core/units/index.ts";
import { buildStreams, type StatedStream, type StreamTable, spansSlower } from "../../../../src/core/water/index.ts";
import { at, constantsOf, statedStream, streamOf, streamsOf, subordinate, tideOf } from "./made-streams.ts";

/*
 * S2 runs 30° an hour and stands at nought at midnight UTC, without node factors: a rate of A·sin(30°·t) for a phase of 90°, slack at
 * midnight, greatest flood at 0300, slack at 0600, greatest ebb at 0900.
 */
const turning = { S2: [2, 90] } as const;
const told = (stream: ReturnType<typeof streamOf>, from = "2027-05-10T00:00:01Z", until = "2027-05-10T13:00:00Z") =>
  stream
    .turns(at(from), at(until))
    .map(({ kind, at: when, alongMps }) => [
      kind,
      new Date(Math.round(when) * 1000).toISOString().slice(11, 16),
      Number(knotsFromMps(alongMps).toFixed(3)),
    ]);

describe("a stream from constants", () => {
  it("turns when its sum does, to the second, and sets along the flood or the ebb", () => {
    const stream = streamOf(statedStream(turning, { ebbTowardDegTrue: 225 }));
    expect(told(stream)).toEqual([
      ["greatest flood", "03:00", 2],
      ["slack before ebb", "06:00", 0],
      ["greatest ebb", "09:00", -2],
      ["slack before flood", "12:00", 0],
    ]);
    for (const { at: when } of stream.turns(at("2027-05-10T00:00:01Z"), at("2027-05-10T13:00:00Z")))
      expect(Math.abs(when - Math.round(when / 3600) * 3600)).toBeLessThan(0.5);
    const ebb = stream.vectorAt(at("2027-05-10T09:00Z"));
    expect(knotsFromMps(ebb.eastMps)).toBeCloseTo(2 * Math.sin((225 * Math.PI) / 180), 6);
    expect(knotsFromMps(ebb.northMps)).toBeCloseTo(2 * Math.cos((225 * Math.PI) / 180), 6);
    const flood = stream.vectorAt(at("2027-05-10T01:00Z"));
    expect(knotsFromMps(flood.eastMps)).toBeCloseTo(1 * Math.sin((60 * Math.PI) / 180), 6);
  });

  it("with a mean flow beyond its amplitude never turns: greatest and least ebb, and no slack", () => {
    expect(told(streamOf(statedStream(turning, { meanKn: -2.5 })))).toEqual([
      ["least ebb", "03:00", -0.5],
      ["greatest ebb", "09:00", -4.5],
    ]);
    expect(told(streamOf(statedStream(turning, { meanKn: 2.5 })))).toEqual([
      ["greatest flood", "03:00", 4.5],
      ["least flood", "09:00", 0.5],
    ]);
  });

  it("with a mean flow within it turns late: slack where sin(30°t) is −mean/amplitude", () => {
    // −0.5 + 2 sin 30°t = 0 at 30°t = 14.4775°: 28.955 min; back at 150 − … = 5 h 31.045 min.
    const slacks = streamOf(statedStream(turning, { meanKn: -0.5 }))
      .turns(at("2027-05-10T00:00Z"), at("2027-05-10T06:00Z"))
      .filter(({ kind }) => kind.startsWith("slack"));
    expect(slacks.map(({ kind }) => kind)).toEqual(["slack before flood", "slack before ebb"]);
    const minutes = (Math.asin(0.25) * 180) / Math.PI / 0.5;
    expect(Math.abs(slacks[0]!.at - at("2027-05-10T00:00Z") - 60 * minutes)).toBeLessThan(1);
    expect(Math.abs(slacks[1]!.at - at("2027-05-10T06:00Z") + 60 * minutes)).toBeLessThan(1);
  });

  it("of two components goes round: east and north are the components, the axis may be any, and it is never still", () => {
    const round = (axisTowardDegTrue: number | null, floodTowardDegTrue: number): StatedStream =>
      statedStream(turning, {
        floodTowardDegTrue,
        ebbTowardDegTrue: (floodTowardDegTrue + 180) % 360,
        told: {
          kind: "constants",
          along: { meanMps: mpsFromKnots(0.1), constants: constantsOf({ S2: [2, 90] }) },
          across: { meanMps: 0, constants: constantsOf({ S2: [0.5, 0] }) },
          axisTowardDegTrue,
        },
      });
    // Axis north: north = 0.1 + 2 sin 30°t, east = 0.5 cos 30°t.
    for (const stream of [streamOf(round(0, 0)), streamOf(round(0, 40)), streamOf(round(null, 0))]) {
      for (const hour of [0, 1, 2.5, 7, 11]) {
        const { eastMps, northMps } = stream.vectorAt(at("2027-05-10T00:00Z") + 3600 * hour);
        expect(knotsFromMps(eastMps)).toBeCloseTo(0.5 * Math.cos((hour * Math.PI) / 6), 6);
        expect(knotsFromMps(northMps)).toBeCloseTo(0.1 + 2 * Math.sin((hour * Math.PI) / 6), 6);
      }
    }
    const aslant = streamOf(round(0, 40));
    const when = at("2027-05-10T02:00Z");
    const { eastMps, northMps } = aslant.vectorAt(when);
    expect(aslant.alongAt(when)).toBeCloseTo(eastMps * Math.sin((40 * Math.PI) / 180) + northMps * Math.cos((40 * Math.PI) / 180), 9);
    const slack = streamOf(round(0, 0))
      .turns(at("2027-05-10T00:00Z"), at("2027-05-11T00:00Z"))
      .find(({ kind }) => kind.startsWith("slack"))!;
    expect(slack.alongMps).toBe(0);
    expect(knotsFromMps(slack.rateMps)).toBeGreaterThan(0.45);
  });
});

describe("a subordinate stream (NOAA, Tidal Current Tables: differences of table 2, rates between by table 3; worked by hand)", () => {
  const differences = {
    slackBeforeFloodLaterSeconds: -20 * 60,
    greatestFloodLaterSeconds: 10 * 60,
    slackBeforeEbbLaterSeconds: 30 * 60,
    greatestEbbLaterSeconds: -5 * 60,
    floodRatio: 0.6,
    ebbRatio: 0.9,
  };
  const side = streamsOf([subordinate(differences), statedStream(turning)])[0]!;

  it("has each turn at its own difference and its own ratio", () => {
    expect(told(side, "2027-05-10T11:00:00Z", "2027-05-10T23:00:00Z")).toEqual([
      ["slack before flood", "11:40", 0],
      ["greatest flood", "15:10", 1.2],
      ["slack before ebb", "18:30", 0],
      ["greatest ebb", "20:55", -1.8],
    ]);
  });

  it.each([
    // 105 min after slack, 210 from slack to greatest: 1.2 sin 45°.
    ["13:25", 1.2 * Math.SQRT1_2],
    // 30 min after slack, 145 to the greatest ebb: 1.8 sin 18.6207°.
    ["19:00", -1.8 * Math.sin((Math.PI / 2) * (30 / 145))],
    // 70 min after the greatest flood, 130 before slack: 1.2 sin(90°·130/200).
    ["16:20", 1.2 * Math.sin((Math.PI / 2) * (130 / 200))],
  ])("at %s runs %f kn", (clock, knots) => {
    expect(knotsFromMps(side.alongAt(at(`2027-05-10T${clock}:00Z`)))).toBeCloseTo(knots, 4);
  });

  it("is told alike whichever instant is asked for first, over many days", () => {
    const asked = (order: readonly number[]): number[] => {
      const stream = streamsOf([statedStream({ M2: [2, 90], K1: [1.1, 20] }), subordinate(differences)])[1]!;
      return order.map((day) => stream.alongAt(at("2027-05-10T07:13Z") + day * 86400));
    };
    expect(asked([40, 3, 11]).map((one) => one.toFixed(9))).toEqual(
      asked([3, 11, 40]).map((_, i) => asked([[40, 3, 11][i]!])[0]!.toFixed(9)),
    );
  });

  it("leaves a slack out rather than a greatest rate where differences put one behind the other, and tells it", () => {
    const odd = streamsOf([statedStream(turning), subordinate({ slackBeforeFloodLaterSeconds: 4 * 3600, floodRatio: 1 })])[1]!;
    const turns = odd.turns(at("2027-05-10T00:00Z"), at("2027-05-11T00:00Z"));
    expect(turns.some(({ kind }) => kind === "slack before flood")).toBe(false);
    expect(turns.filter(({ kind }) => kind === "greatest flood")).toHaveLength(2);
    expect(odd.doubts(at("2027-05-10T00:00Z"), at("2027-05-11T00:00Z")).map(({ kind }) => kind)).toContain("turns out of order");
    expect(knotsFromMps(odd.alongAt(at("2027-05-10T03:00Z")))).toBeCloseTo(2, 6);
  });

  it("of a reference that never turns has no slack either", () => {
    const stream = streamsOf([statedStream(turning, { meanKn: -2.5 }), subordinate({ ebbRatio: 0.5 })])[1]!;
    expect(told(stream)).toEqual([
      ["least ebb", "03:00", -0.25],
      ["greatest ebb", "09:00", -2.25],
    ]);
    expect(knotsFromMps(stream.alongAt(at("2027-05-10T06:00Z")))).toBeCloseTo(-1.25, 6);
  });
});

/** Rates of 1 at springs and 0.5 at neaps times the hour's number, the set 10° more each hour. */
const hours = Array.from({ length: 13 }, (_, i) => ({
  hour: i - 6,
  setDegTrue: 60 + 10 * i,
  springsMps: mpsFromKnots(1 + i / 10),
  neapsMps: mpsFromKnots(0.5 + i / 20),
}));
const byHours = (given: Partial<StreamTable> = {}): StatedStream =>
  statedStream({}, { told: { kind: "byHours", table: { of: "the Port", springRangeMetres: 4.4, neapRangeMetres: 2.4, hours, ...given } } });

describe("a stream by hours from high water", () => {
  // S2 of 2 m with a phase of nought: high water at midnight and noon, a range of 4 m, 0.8 of the way from neaps to springs.
  const port = tideOf({ S2: [2, 0] });

  it("gives the table's own set at whole hours, and the rate for the day's range", () => {
    const stream = streamOf(byHours(), port);
    for (const { hour, setDegTrue, springsMps, neapsMps } of hours.slice(1, 12)) {
      const { eastMps, northMps } = stream.vectorAt(at("2027-05-10T12:00Z") + 3600 * hour);
      const rate = neapsMps + 0.8 * (springsMps - neapsMps);
      expect(eastMps).toBeCloseTo(rate * Math.sin((setDegTrue * Math.PI) / 180), 5);
      expect(northMps).toBeCloseTo(rate * Math.cos((setDegTrue * Math.PI) / 180), 5);
    }
    expect(stream.doubts(at("2027-05-10T00:00Z"), at("2027-05-11T00:00Z"))).toEqual([]);
  });

  it("joins the hours by components, and the last hour to the first of the next tide", () => {
    // M2: high waters 12 h 25.2 min apart, so that 25 min lie between +6 and −6.
    const tides = tideOf({ M2: [2, 0] });
    const stream = streamOf(byHours(), tides);
    const highs = tides[0]!.tide.highsAndLows(at("2027-05-10T00:00Z"), at("2027-05-12T00:00Z")).filter(({ kind }) => kind === "high");
    const [first, second] = [highs[0]!.at, highs[1]!.at];
    expect((second - first) / 60).toBeCloseTo(745.2, 0);
    const ends = [stream.vectorAt(first + 6 * 3600), stream.vectorAt(second - 6 * 3600)] as const;
    const middle = stream.vectorAt((first + second) / 2);
    expect(middle.eastMps).toBeCloseTo((ends[0].eastMps + ends[1].eastMps) / 2, 6);
    const half = stream.vectorAt(first + 2.5 * 3600);
    const [two, three] = [stream.vectorAt(first + 2 * 3600), stream.vectorAt(first + 3 * 3600)];
    expect(half.northMps).toBeCloseTo((two.northMps + three.northMps) / 2, 6);
  });

  it("beyond springs and short of neaps runs on in a straight line and says so", () => {
    const range = (metres: number) => {
      const stream = streamOf(byHours(), tideOf({ S2: [metres / 2, 0] }));
      const { eastMps, northMps } = stream.vectorAt(at("2027-05-10T12:00Z"));
      return {
        knots: knotsFromMps(Math.hypot(eastMps, northMps)),
        doubts: stream.doubts(at("2027-05-10T09:00Z"), at("2027-05-10T15:00Z")),
      };
    };
    // At high water 0.8 kn at neaps and 1.6 at springs: share 1.3 and −0.2.
    const beyond = range(5);
    expect(beyond.knots).toBeCloseTo(0.8 + 1.3 * 0.8, 4);
    expect(beyond.doubts).toHaveLength(1);
    expect(beyond.doubts[0]).toMatchObject({ kind: "beyond springs", statedMetres: 4.4 });
    expect(beyond.doubts[0]?.rangeMetres).toBeCloseTo(5, 4);
    const short = range(2);
    expect(short.knots).toBeCloseTo(0.8 - 0.2 * 0.8, 4);
    expect(short.doubts.map(({ kind }) => kind)).toEqual(["short of neaps"]);
    expect(range(4.4).doubts.filter(({ kind }) => kind === "short of neaps")).toEqual([]);
  });

  it("stretches its hours where there is one high water a day, and says so", () => {
    const stream = streamOf(byHours(), tideOf({ K1: [1.8, 0] }));
    const doubts = stream.doubts(at("2027-05-10T00:00Z"), at("2027-05-12T00:00Z"));
    expect(doubts.some(({ kind }) => kind === "high waters uneven")).toBe(true);
    expect(Number.isFinite(stream.alongAt(at("2027-05-10T18:00Z")))).toBe(true);
  });

  it("takes the mean ranges of the tide's constants where none are stated: 2(M2 + S2) and 2(M2 − S2)", () => {
    const stream = streamOf(byHours({ springRangeMetres: null, neapRangeMetres: null }), tideOf({ M2: [1.5, 100], S2: [0.5, 140] }));
    expect(stream.told).toMatchObject({ kind: "byHours", of: "the Port", springRangeMetres: 4, neapRangeMetres: 2 });
  });

  it("finds slack between hours on the straight line, and greatest rates at the table's hours", () => {
    const toAndFro = hours.map(({ hour }) => {
      const along = hour === -6 ? -0.1 : 2 * Math.sin((hour * Math.PI) / 6);
      return {
        hour,
        setDegTrue: along >= 0 ? 60 : 240,
        springsMps: mpsFromKnots(Math.abs(along)),
        neapsMps: mpsFromKnots(Math.abs(along)),
      };
    });
    const turns = streamOf(byHours({ hours: toAndFro }), port).turns(at("2027-05-10T11:00Z"), at("2027-05-10T17:30Z"));
    expect(turns.map(({ kind, at: when }) => [kind, new Date(when * 1000).toISOString().slice(11, 16)])).toEqual([
      ["slack before flood", "12:00"],
      ["greatest flood", "15:00"],
    ]);
  });
});

describe("where a stream runs slower", () => {
  it("2 sin 30°t is not above 1 kn within an hour of each slack", () => {
    const spans = spansSlower(streamOf(statedStream(turning)), mpsFromKnots(1), at("2027-05-10T02:00Z"), at("2027-05-10T14:00Z"));
    const clock = (when: number) => new Date(Math.round(when) * 1000).toISOString().slice(11, 19);
    expect(spans.map(({ from, until }) => [clock(from), clock(until)])).toEqual([
      ["05:00:00", "07:00:00"],
      ["11:00:00", "13:00:00"],
    ]);
  });

  it("finds a slack of seconds, and tells the whole of a day without any, or nothing", () => {
    const stream = streamOf(statedStream({ S2: [6, 90] }));
    const [only] = spansSlower(stream, mpsFromKnots(0.01), at("2027-05-10T05:00Z"), at("2027-05-10T07:00Z"));
    expect(only!.until - only!.from).toBeLessThan(30);
    expect(spansSlower(stream, mpsFromKnots(7), 0, 3600)).toEqual([{ from: 0, until: 3600 }]);
    expect(spansSlower(streamOf(statedStream(turning, { meanKn: 3 })), mpsFromKnots(0.5), 0, 86400)).toEqual([]);
  });
});

describe("what can be wrong with streams", () => {
  const codes = (stated: readonly StatedStream[], tides: Parameters<typeof buildStreams>[1] = []) => {
    const built = buildStreams(stated, tides);
    return built.ok ? [] : built.issues.map(({ path, code }) => `${path} ${code}`);
  };
  it.each([
    ["an unknown constituent", [statedStream({ M2: [1, 0], Q9: [1, 0] })], ["streams[0].constants[1] tide-constituent-unknown"]],
    ["a rate that no stream has", [statedStream({ M2: [40, 0] })], ["streams[0].constants[0] stream-constant-range"]],
    ["a mean flow that none has", [statedStream({ M2: [1, 0] }, { meanKn: 30 })], ["streams[0].constants stream-constant-range"]],
    ["no constants", [statedStream({})], ["streams[0].constants tide-constants-none"]],
    ["no reference", [subordinate({})], ["streams[0].subordinate.of stream-reference-unknown"]],
    [
      "a reference that is told from another",
      [statedStream(turning), subordinate({}), { ...subordinate({}, "the Side"), name: "third" }],
      ["streams[2].subordinate.of stream-reference-unknown"],
    ],
    [
      "a difference of a day",
      [statedStream(turning), subordinate({ greatestEbbLaterSeconds: 90000 })],
      ["streams[1].subordinate.greatestEbb stream-differences-range"],
    ],
    [
      "a ratio of nought",
      [statedStream(turning), subordinate({ ebbRatio: 0 })],
      ["streams[1].subordinate.ebbRatio stream-differences-range"],
    ],
    ["no tide", [byHours({ of: "nowhere" })], ["streams[0].byHours.of name-unknown"]],
  ] as const)("%s", (_, stated, wanted) => {
    expect(codes(stated)).toEqual(wanted);
  });

  it("tables: hours that are missing or twice, ranges the wrong way round, no ranges at all", () => {
    const port = tideOf({ K1: [2, 0] });
    expect(codes([byHours({ hours: hours.filter(({ hour }) => hour !== 2) })], port)).toEqual(["streams[0].byHours.table stream-hours"]);
    expect(codes([byHours({ hours: hours.slice(3) })], port)).toEqual(["streams[0].byHours.table stream-hours"]);
    expect(codes([byHours({ springRangeMetres: 2, neapRangeMetres: 3 })], port)).toEqual([
      "streams[0].byHours.springRange stream-table-range",
    ]);
    expect(codes([byHours({ springRangeMetres: null, neapRangeMetres: null })], port)).toEqual(["streams[0].byHours stream-range-missing"]);
  });
});
