import type { SectionTold } from "../../../src/api/told/section-told.ts";

/** An invented strait: a stream of sech² across, as strong as is asked, that sets square down the drawing. */
export type Strait = {
  readonly lengthNm?: number;
  readonly peakKn?: number;
  readonly speedKn?: number;
  readonly lineDegTrue?: number;
  /** From the left of the line, or from its right. */
  readonly streamFrom?: "left" | "right";
  readonly southern?: boolean;
};

type Place = [number, number];

const sech2 = (x: number): number => 1 / Math.cosh(x) ** 2;
const wrap = (degrees: number): number => ((degrees % 360) + 360) % 360;
const clockOf = (hours: number): string => {
  const minutes = Math.round(hours * 60) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
};

/** A whole section told of an invented strait; every number in it follows from the sech² stream by Euler steps of a minute. */
export function strait({
  lengthNm = 52,
  peakKn = 3.2,
  speedKn = 5.6,
  lineDegTrue = 118,
  streamFrom = "left",
  southern = false,
}: Strait = {}): SectionTold {
  const axis = lengthNm * 0.41;
  const rate = (across: number): number => peakKn * sech2((across - axis) / (lengthNm * 0.145));
  const up = wrap(streamFrom === "left" ? lineDegTrue - 90 : lineDegTrue + 90);
  const side = streamFrom === "left" ? -1 : 1;

  /** Runs a heading given as degrees up-stream of the line, until abreast of the arrival. */
  const run = (upDegrees: number, factor = 1): { points: Place[]; hours: number } => {
    const points: Place[] = [[0, 0]];
    let [across, off, hours] = [0, 0, 0];
    const [along, upward] = [Math.cos((upDegrees * Math.PI) / 180), Math.sin((upDegrees * Math.PI) / 180)];
    while (across < lengthNm && hours < 200) {
      across += (speedKn * along) / 60;
      off += (speedKn * upward - rate(across) * factor) / 60;
      hours += 1 / 60;
      if (Math.round(hours * 60) % 5 === 0) points.push([across, off]);
    }
    if (points.at(-1)![0] < across) points.push([across, off]);
    return { points, hours };
  };
  let [low, high] = [-60, 60];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (run(middle).points.at(-1)![1] < 0) low = middle;
    else high = middle;
  }
  const upDegrees = (low + high) / 2;
  const order = run(upDegrees);
  const square = run(0);
  const leave = 0.75;
  const at = (hours: number): Place => order.points[Math.min(order.points.length - 1, Math.round(hours * 12))]!;
  const whole = Array.from({ length: Math.floor(leave + order.hours) }, (_, i) => i + 1).filter((hour) => hour > leave);
  const hours = [leave, ...whole, leave + order.hours].map((hour) => {
    const [acrossNm, offNm] = hour === leave + order.hours ? order.points.at(-1)! : at(hour - leave);
    return { acrossNm, offNm, clock: clockOf(hour) };
  });
  const heading = wrap(lineDegTrue + side * upDegrees);
  const coast = (from: number, sign: number): Place[] =>
    Array.from({ length: 61 }, (_, i): Place => {
      const off = (i / 30 - 1) * lengthNm;
      return [from + sign * lengthNm * (0.02 + 0.01 * Math.sin(i * 1.7) + 0.006 * Math.cos(i * 3.1)), off];
    });
  const marks = [];
  for (let c = 0; c < 20; c++) {
    for (let r = -6; r <= 6; r++) {
      const acrossNm = ((c + 0.5) * lengthNm) / 20;
      marks.push({ acrossNm, offNm: (r * lengthNm) / 20, alongKn: 0.03 * rate(acrossNm), upKn: -rate(acrossNm) });
    }
  }
  return {
    lengthNm,
    southern,
    lineDegTrue,
    upDegTrue: up,
    from: "Anvil Road",
    to: "Port Ness",
    hours,
    paths: [
      { letter: "A", role: "order", key: "oneHeading", name: "one heading", points: order.points },
      { letter: "B", role: "yardstick", key: "fastest", name: "fastest", points: order.points.map(([a, o]): Place => [a, o * 1.06]) },
      {
        letter: "C",
        role: "other",
        key: "bowOnDestination",
        name: "bow on the destination",
        points: square.points.map(([a, o]): Place => [a, o * 0.45 * (1 - (a / lengthNm) ** 3)]),
      },
      {
        letter: "D",
        role: "other",
        key: "holdTrack",
        name: "hold the track",
        points: [
          [0, 0],
          [lengthNm / 2, 0],
          [lengthNm, 0],
        ],
      },
      {
        letter: "E",
        role: "other",
        key: "acrossThenTurn",
        name: "straight across, then turn",
        points: [...square.points.filter(([a]) => a < lengthNm * 0.66), [lengthNm, 0]],
      },
    ],
    land: [
      { name: "Mornay", kind: "land", ring: [...coast(0, -1), [-lengthNm, lengthNm], [-lengthNm, -lengthNm]] },
      { name: "Skarra", kind: "land", ring: [...coast(lengthNm, 1), [2 * lengthNm, lengthNm], [2 * lengthNm, -lengthNm]] },
      {
        name: "Teeth Bank",
        kind: "keptOut",
        ring: [
          [lengthNm * 0.74, lengthNm * -0.14],
          [lengthNm * 0.86, lengthNm * -0.15],
          [lengthNm * 0.84, lengthNm * -0.2],
          [lengthNm * 0.73, lengthNm * -0.19],
        ],
      },
    ],
    lanes: [],
    places: [
      { name: "Anvil Road", kind: "from", acrossNm: 0, offNm: 0 },
      { name: "Port Ness", kind: "to", acrossNm: lengthNm, offNm: 0 },
      { name: "Candle Cove", kind: "refuge", acrossNm: lengthNm * 0.98, offNm: -lengthNm * 0.1 },
      { name: "Gull Harbour", kind: "refuge", acrossNm: lengthNm * 0.01, offNm: -lengthNm * 0.16 },
      { name: "Far Haven", kind: "refuge", acrossNm: lengthNm, offNm: -lengthNm * 0.9 },
    ],
    streamMarks: marks,
    rate: { points: order.points.map(([a]): [number, number, number] => [a, rate(a), wrap(up + 180)]) },
    heading: {
      by: "compass",
      steered: [
        [0, heading],
        [lengthNm, heading],
      ],
      overGround: order.points.slice(1).map(([a, o], i): [number, number] => {
        const [b, p] = order.points[i]!;
        return [a, wrap(lineDegTrue + (side * Math.atan2(o - p, a - b) * 180) / Math.PI)];
      }),
    },
    off: [1, 0.8, 1.25].map((streamFactor) => ({
      streamFactor,
      points: streamFactor === 1 ? order.points : run(upDegrees, streamFactor).points,
    })),
    wind: hours.map(({ acrossNm, clock }, i) => ({
      acrossNm,
      clock,
      fromDegTrue: wrap(20 - 4 * i),
      kn: 12 + (i % 5),
      gustKn: 15 + (i % 5),
    })),
    sea: {
      height: order.points.map(([a]): [number, number, number] => [a, 0.8 + 0.1 * rate(a), 0.9 + 0.2 * rate(a)]),
      neverMetres: 2.1,
      periodSeconds: order.points.map(([a]): [number, number] => [a, 7 - 0.6 * rate(a)]),
      lacksSwell: false,
      onStream: null,
    },
    light: [
      { fromNm: 0, untilNm: lengthNm * 0.55, light: "night" },
      { fromNm: lengthNm * 0.55, untilNm: lengthNm * 0.62, light: "twilight" },
      { fromNm: lengthNm * 0.62, untilNm: lengthNm, light: "day" },
    ],
    lightWords: [{ acrossNm: lengthNm * 0.62, words: "sun up 06:10" }],
    depth: null,
    axis: { acrossNm: axis, clock: "04:31", rateKn: peakKn },
    clear: { acrossNm: axis + 0.25 * lengthNm, clock: "06:50" },
    inWords: "An invented strait, for a test.",
  };
}

/** A steepness and what it is called. */
const steepest = (greatest: number) => ({ greatest, words: greatest >= 1 / 7 ? "1/7 or steeper" : `1/${Math.round(1 / greatest)}` });

/** A stream that makes of a plain sea a steep one, and in its middle a breaking one; heights and steepness by eye, not by any law. */
export function steepStrait(neverMetres: number | null = 2.1): SectionTold {
  const told = strait();
  const sea = told.sea!;
  const rates = told.rate.points.map(([, kn]) => kn);
  const steepness = sea.height.map(([a], i): [number, number, number] => [a, 0.025, 0.03 + 0.02 * rates[i]!]);
  const fromTo = (least: number) => {
    const inside = steepness.filter(([, , high]) => high >= least);
    return [{ fromNm: inside[0]![0], untilNm: inside.at(-1)![0], ...steepest(Math.max(...inside.map(([, , high]) => high))) }];
  };
  const height = sea.height.map(([a, low, high], i): [number, number, number] => [a, low, high + 0.35 * rates[i]!]);
  return {
    ...told,
    sea: {
      ...sea,
      onStream: {
        height,
        raised: height.reduce((most, one) => (one[2] > most[2] ? one : most)),
        neverMetres,
        steepness,
        neverSteepness: 0.07,
        neverSteepnessWords: "1/14",
        steep: fromTo(1 / 25),
        breaking: fromTo(1 / 13),
        pastNever: fromTo(0.07),
      },
    },
  };
}

/** The straits that a section must bear, each by what is hard in it. */
export const hardStraits: Readonly<Record<string, () => SectionTold>> = {
  "a plain one": () => strait(),
  "five miles": () => strait({ lengthNm: 5, peakKn: 2.2 }),
  "three hundred miles": () => strait({ lengthNm: 300, peakKn: 2.6 }),
  "a stream from the right": () => strait({ streamFrom: "right", lineDegTrue: 87 }),
  "next to no stream": () => ({ ...strait({ peakKn: 0.04 }), clear: null }),
  "a race": () => strait({ lengthNm: 12, peakKn: 5.2, speedKn: 5.6 }),
  "a path that goes back on itself": () => {
    const told = strait({ lengthNm: 18, peakKn: 3 });
    const back = (points: readonly Place[]): Place[] =>
      points.map(([a, o]): Place => [a - 5 * Math.exp(-(((a - 9) / 2) ** 2)), o + 2.4 * Math.sin(a / 2.2)]);
    return {
      ...told,
      paths: told.paths.map((path) => ({ ...path, points: back(path.points) })),
      rate: { points: told.rate.points.map(([a, kn, to], i) => [back(told.paths[0]!.points)[i]?.[0] ?? a, kn, to]) },
      hours: told.hours.map((hour) => ({ ...hour, acrossNm: back([[hour.acrossNm, hour.offNm]])[0]![0] })),
    };
  },
  "no sea, no land, no wind, no light": () => ({
    ...strait(),
    sea: null,
    land: [],
    wind: [],
    light: [],
    lightWords: [],
    depth: { words: "Charted depths are not among the sources: under-keel clearance on the way is not judged. Keep to the chart." },
  }),
  "calm, then a gale": () => {
    const told = strait({ southern: true });
    return {
      ...told,
      wind: told.wind.map((wind, i) =>
        i < 3 ? { ...wind, fromDegTrue: null, kn: 0, gustKn: null } : { ...wind, kn: 8 * i, gustKn: 11 * i },
      ),
      sea: { ...told.sea!, height: told.sea!.height.map(([a, low, high]) => [a, low + a / 26, high + a / 16]) },
    };
  },
  "a sea of the wind alone": () => {
    const told = steepStrait(1.7);
    return { ...told, sea: { ...told.sea!, lacksSwell: true } };
  },
  "seas that break on the stream": () => steepStrait(),
  "a limit of its own on the sea on the stream": () => steepStrait(1.7),
  "a sea that is steep by fits": () => {
    const told = steepStrait(null);
    const onStream = told.sea!.onStream!;
    const fits = [3, 9, 9.3, 17, 23, 31, 40, 51.9].map((fromNm) => ({ fromNm, untilNm: fromNm + 0.4, ...steepest(0.05) }));
    const height = onStream.height.map((one, i) => (i % 7 === 0 ? null : one));
    const breaking = fits.filter((_, i) => i % 3 === 0).map((one) => ({ ...one, ...steepest(1 / 7) }));
    return {
      ...told,
      sea: {
        ...told.sea!,
        neverMetres: null,
        onStream: { ...onStream, height, steep: fits, breaking, pastNever: fits, neverSteepness: 1 / 28, neverSteepnessWords: "1/28" },
      },
    };
  },
  "a tide that turns": () => {
    const told = strait({ lengthNm: 60 });
    return {
      ...told,
      rate: { points: told.rate.points.map(([a]) => [a, Math.abs(2.1 * Math.sin(a / 6.4)), Math.sin(a / 6.4) > 0 ? 208 : 28]) },
      off: told.off.map(({ streamFactor, points }) => ({
        streamFactor,
        points: points.map(([a]) => [a, 1.3 * streamFactor * Math.sin(a / 9)]),
      })),
      heading: {
        ...told.heading,
        steered: [
          [0, 112],
          [18, 112],
          [18, 121],
          [33, 121],
          [33, 109],
          [60, 109],
        ],
      },
      clear: null,
    };
  },
  "lanes, and ways that fail": () => {
    const told = strait({ lengthNm: 22, peakKn: 2.4 });
    return {
      ...told,
      lanes: [
        {
          name: "south-west lane",
          ring: [
            [6, 20],
            [9, 20],
            [9, -20],
            [6, -20],
          ],
          flowTowardDegTrue: 208,
        },
        {
          name: "separation zone",
          ring: [
            [9, 20],
            [10, 20],
            [10, -20],
            [9, -20],
          ],
          flowTowardDegTrue: null,
        },
        {
          name: "north-east lane",
          ring: [
            [10, 20],
            [13, 20],
            [13, -20],
            [10, -20],
          ],
          flowTowardDegTrue: 28,
        },
      ],
      paths: told.paths.map((path) =>
        path.role === "other" ? { ...path, points: path.points.slice(0, Math.max(2, path.points.length * 0.6)) } : path,
      ),
    };
  },
  "names in long words and other scripts": () => {
    const told = strait();
    const names = [
      "The Royal Anvil and Candle Cove Yacht Haven, outer pontoon",
      "Port <script>alert('Ness')</script> & \"Harbour\"",
      "מעגן הנר הגדול",
      "ميناء الشمعة",
      "灯台港の錨地",
    ];
    return {
      ...told,
      from: names[0]!,
      to: names[1]!,
      places: told.places.map((place, i) => ({ ...place, name: names[i]! })),
      land: told.land.map((land) => ({ ...land, name: "The United Provinces of Mornay-beyond-the-Sea <b>" })),
      inWords: "Names <b>with</b> & without\u0000\ud800 marks.",
    };
  },
  "many refuges": () => {
    const told = strait({ lengthNm: 40 });
    const refuges = Array.from({ length: 12 }, (_, i) => ({
      name: `Refuge ${["Alder", "Birch", "Cedar", "Dogwood"][i % 4]} ${i + 1}`,
      kind: "refuge" as const,
      acrossNm: i % 2 === 0 ? 0.4 : 39.4,
      offNm: 6 - i * 1.6,
    }));
    return { ...told, places: [...told.places, ...refuges] };
  },
};
