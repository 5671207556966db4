import { describe, expect, it } from "vitest";
import { sectionTold } from "../../../src/api/told/section-told.ts";
import { everyElement, pointsOf, withClass } from "../svg/read-svg.ts";
import { drawn, numberOf, only, ringOf, wayData, widths } from "./drawn.ts";
import { hardStraits, steepStrait, strait } from "./fixtures.ts";

const told = strait();
const wide = drawn(told, { widthPx: 900 });
const words = (root: ReturnType<typeof drawn>): string[] => root.texts.map(({ text }) => text);
/** Pixels to the mile, as the drawing's own scale says. */
function scaleOf({ root, texts }: ReturnType<typeof drawn>): number {
  const nm = Number(/^([\d.]+) nm/.exec(texts.find(({ text }) => /^[\d.]+ nm/.test(text))!.text)![1]);
  const bar = withClass(root, "section-axis")
    .map(({ attributes }) => pointsOf(attributes.d!))
    .find(([[, a], [, b]]) => a === b)!;
  return Math.abs(bar[1]![0] - bar[0]![0]) / nm;
}

describe("the fixtures", () => {
  it.each(Object.entries(hardStraits))("are sections as the page gets them: %s", (_, make) => {
    expect(sectionTold.safeParse(make()).error).toBeUndefined();
  });
});

describe("a section", () => {
  it.each(Object.entries(hardStraits).flatMap(([name, make]) => widths.map((widthPx) => [name, widthPx, make] as const)))(
    "is well-formed and whole: %s, %i wide",
    (_, widthPx, make) => {
      const section = make();
      const { svg, root } = drawn(section, { widthPx });
      expect(svg).not.toMatch(/NaN|undefined|Infinity|\[object|null/);
      expect(svg).not.toMatch(/<script|style=/);
      expect(numberOf(root, "width")).toBe(widthPx);
      for (const { letter } of section.paths) expect([letter, wayData(root, letter).length]).toEqual([letter, 1]);
      const letters = withClass(root, "section-badge-letter").map(({ text }) => text);
      expect(letters).toEqual(section.paths.map(({ letter }) => letter));
      const ids = everyElement(root).flatMap(({ attributes }) => attributes.id ?? []);
      expect(new Set(ids).size).toBe(ids.length);
      const used = [...svg.matchAll(/url\(#([^)]*)\)/g)].map(([, id]) => id);
      for (const id of used) expect(ids).toContain(id);
    },
  );

  it("has a title and says all of it in words for who can't see it", () => {
    const { root } = wide;
    expect(root.attributes.role).toBe("img");
    const [title, desc] = root.attributes["aria-labelledby"]!.split(" ").map(
      (id) => everyElement(root).find((each) => each.attributes.id === id)!.text,
    );
    expect(title).toContain("Anvil Road to Port Ness");
    expect(desc).toBe(told.inWords);
    const failing = { letter: "E", name: "straight across", arrives: false, why: "the stream is stronger than the boat" };
    const ways = [
      {
        ...failing,
        key: "acrossThenTurn",
        role: "other" as const,
        takes: "",
        costs: "",
        up: "",
        down: "",
        fuel: "",
        verdict: null,
        verdictWords: "",
        orders: "",
        otherwise: [],
      },
    ];
    expect(drawn(told, { widthPx: 900, ways }).svg).toContain("E, straight across, does not arrive: the stream is stronger than the boat.");
  });

  it("gives no two sections on a page the same ids", () => {
    const ids = [told, strait({ peakKn: 3.1 })].flatMap((each) =>
      widths.map((widthPx) => drawn(each, { widthPx }).root.attributes["aria-labelledby"]),
    );
    expect(new Set(ids).size).toBe(8);
  });
});

describe("the plan", () => {
  it.each(widths)("has one scale along and across, and says it: %i wide", (widthPx) => {
    const section = drawn(told, { widthPx });
    const scale = scaleOf(section);
    const [from, to, cove] = ["Anvil Road", "Port Ness", "Candle Cove"].map((name) => ringOf(section.root, name));
    expect(to![0] - from![0]).toBeCloseTo(52 * scale, 0);
    expect(to![1]).toBeCloseTo(from![1], 1);
    expect(cove![0] - from![0]).toBeCloseTo(52 * 0.98 * scale, 0);
    expect(cove![1] - from![1]).toBeCloseTo(5.2 * scale, 0);
  });

  it("draws each way where it goes", () => {
    const scale = scaleOf(wide);
    const [x0, y0] = ringOf(wide.root, "Anvil Road");
    const path = told.paths.find(({ letter }) => letter === "E")!.points;
    const corner = path.at(-2)!;
    const points = pointsOf(wayData(wide.root, "E")[0]!);
    const drawnCorner = points.at(-2)!;
    expect(drawnCorner[0]).toBeCloseTo(x0 + corner[0] * scale, 0);
    expect(drawnCorner[1]).toBeCloseTo(y0 - corner[1] * scale, 0);
  });

  it("is turned, never mirrored: with the stream from the right the crossing runs to the left", () => {
    for (const streamFrom of ["left", "right"] as const) {
      const section = drawn(strait({ streamFrom, lineDegTrue: 90 }), { widthPx: 900 });
      const [from, to, cove] = ["Anvil Road", "Port Ness", "Candle Cove"].map((name) => ringOf(section.root, name));
      const north = pointsOf(only(section.root, "section-north").attributes.d!);
      const up = north[0]![1] - north[1]![1];
      // Line due east: the stream from the left comes from the north, which is then up; from the right, from the south.
      expect(Math.sign(up)).toBe(streamFrom === "left" ? 1 : -1);
      expect(Math.sign(to![0] - from![0])).toBe(streamFrom === "left" ? 1 : -1);
      expect(cove![1]).toBeGreaterThan(from![1]);
      // East, a quarter clockwise of north, is where the line leads: no mirror.
      const [ux, uy] = [north[1]![0] - north[0]![0], north[1]![1] - north[0]![1]];
      expect(-uy * (to![0] - from![0])).toBeGreaterThan(Math.abs(ux));
    }
  });

  it("names a port of refuge off the plan at its edge, with how far it is", () => {
    expect(words(wide).some((text) => text === "Far Haven 47 nm")).toBe(true);
    expect(() => ringOf(wide.root, "Far Haven")).toThrow();
  });

  it("shrinks for a crossing that is carried far, so that the order stays whole", () => {
    const far = strait({ lengthNm: 12, peakKn: 5.2 });
    const section = drawn(far, { widthPx: 332 });
    const scale = scaleOf(section);
    const [x0, y0] = ringOf(section.root, "Anvil Road");
    const plan = pointsOf(wayData(section.root, "A")[0]!);
    const lowest = Math.min(...far.paths[0]!.points.map(([, off]) => off));
    expect(Math.max(...plan.map(([, y]) => y)) - y0).toBeCloseTo(-lowest * scale, 0);
    expect(plan.at(-1)![0] - x0).toBeCloseTo(far.paths[0]!.points.at(-1)![0] * scale, 0);
  });

  it("draws a stream by its rate: the mark of twice the rate is twice as long", () => {
    const one = (kn: number) => {
      const section = {
        ...told,
        places: [],
        streamMarks: [
          { acrossNm: 20, offNm: 0, alongKn: 0, upKn: -kn },
          { acrossNm: 40, offNm: 0, alongKn: 0, upKn: -4 },
        ],
      };
      const stream = withClass(drawn(section, { widthPx: 900 }).root, "section-stream")[0]!;
      const [[, a], [, b]] = pointsOf(stream.attributes.d!) as [[number, number], [number, number]];
      return b - a;
    };
    expect(one(3)).toBeGreaterThan(5);
    expect(one(3) / one(1.5)).toBeCloseTo(2, 1);
  });

  it("marks the end of a way that does not arrive", () => {
    const failing = drawn(hardStraits["lanes, and ways that fail"]!(), { widthPx: 900 });
    expect(withClass(failing.root, "section-ends").length).toBe(3);
    expect(withClass(wide.root, "section-ends").length).toBe(0);
  });

  it("points the boat by her heading, not by her course", () => {
    const hull = only(wide.root, "section-hull").attributes.transform!;
    const turned = Number(/rotate\((-?[\d.]+)\)/.exec(hull)![1]);
    // On one heading the boat is turned from the line by the angle held the whole way.
    const held = told.heading.steered[0]![1] - told.lineDegTrue;
    expect(turned).toBeCloseTo(held, 0);
  });
});

describe("the strips", () => {
  it("stand on the plan's own miles across, the hours ruled down through all", () => {
    const scale = scaleOf(wide);
    const [x0] = ringOf(wide.root, "Anvil Road");
    const rules = withClass(wide.root, "section-rule").map(({ attributes }) => pointsOf(attributes.d!));
    expect(rules.length).toBe(told.hours.length);
    told.hours.forEach(({ acrossNm }, i) => {
      expect(rules[i]![0]![0]).toBeCloseTo(x0 + acrossNm * scale, 0);
      expect(rules[i]![1]![0]).toBe(rules[i]![0]![0]);
    });
    const foot = wide.texts.find(({ text, attributes }) => text === "40" && attributes.class === "section-hour")!;
    expect(numberOf(foot, "x")).toBeCloseTo(x0 + 40 * scale, 0);
  });

  it("say what stands at the extremes, in words", () => {
    const said = words(wide);
    expect(said).toContain("3.2 kn toward 208 true, mid-stream 04:31");
    expect(said.some((text) => /^steer \d{3} compass the whole way$/.test(text))).toBe(true);
    expect(said.some((text) => text.startsWith("clear of the stream 06:50"))).toBe(true);
    const most = Math.max(...told.paths[0]!.points.map(([, off]) => off)).toFixed(1);
    expect(said.some((text) => text === `${most} up-stream` || text === `${most} up`)).toBe(true);
    expect(said).toContain("never 2.1 m");
    expect(said.some((text) => text.includes("NNE 12"))).toBe(true);
    expect(said).toContain("sun up 06:10");
  });

  it("let the course sag where the stream carries the boat down, whichever side it comes from", () => {
    for (const streamFrom of ["left", "right"] as const) {
      const { root } = drawn(strait({ streamFrom }), { widthPx: 900 });
      const course = pointsOf(withClass(root, "section-course")[0]!.attributes.d!);
      const helm = pointsOf(withClass(root, "section-helm")[0]!.attributes.d!);
      const lowest = Math.max(...course.map(([, y]) => y));
      expect(lowest - helm[0]![1]).toBeGreaterThan(15);
    }
  });

  it("draw next to no stream as next to nothing", () => {
    const height = (peakKn: number): number => {
      const points = pointsOf(withClass(drawn(strait({ peakKn }), { widthPx: 900 }).root, "section-water-line")[0]!.attributes.d!);
      return Math.max(...points.map(([, y]) => y)) - Math.min(...points.map(([, y]) => y));
    };
    expect(height(0.04)).toBeLessThan(4);
    expect(height(3)).toBeGreaterThan(40);
  });

  it("say a missing source loudly and hatch a sea past never", () => {
    const bare = drawn(hardStraits["no sea, no land, no wind, no light"]!(), { widthPx: 332 });
    expect(words(bare)).toContain("No source gives a sea: not judged.");
    expect(words(bare).some((text) => text.startsWith("No source gives a wind"))).toBe(true);
    expect(withClass(bare.root, "section-coast").length).toBe(0);
    expect(withClass(drawn(hardStraits["calm, then a gale"]!(), { widthPx: 900 }).root, "section-past-never").length).toBe(1);
    expect(withClass(wide.root, "section-past-never").length).toBe(0);
  });

  it.each(widths)("draw the sea on the stream dashed over the forecast's, at its own height, and name it: %i wide", (widthPx) => {
    const section = steepStrait();
    const { root, texts } = drawn(section, { widthPx });
    const forecast = pointsOf(only(root, "section-sea").attributes.d!);
    const raised = pointsOf(only(root, "section-sea-raised").attributes.d!);
    const never = pointsOf(only(root, "section-never").attributes.d!)[0]![1];
    const bottom = Math.max(
      ...withClass(root, "section-axis").flatMap(({ attributes }) =>
        pointsOf(attributes.d!)
          .map(([, y]) => y)
          .filter((y) => y < pointsOf(only(root, "section-steep").attributes.d!)[0]![1] + 2),
      ),
    );
    // One scale for all: 2.1 m of never stands as high as it says against the highest of either sea.
    const perMetre = (bottom - never) / 2.1;
    const [top, flat] = [raised, forecast].map((points) => Math.min(...points.map(([, y]) => y)));
    const highest = section.sea!.onStream!.raised!;
    expect((bottom - top!) / perMetre).toBeCloseTo(highest[2], 1);
    expect((bottom - flat!) / perMetre).toBeCloseTo(Math.max(...section.sea!.height.map(([, , high]) => high)), 1);
    expect(texts.some(({ text }) => text.includes(`on the stream ${highest[1].toFixed(1)} to ${highest[2].toFixed(1)} m`))).toBe(true);
    expect(texts.filter(({ text }) => text === "never 2.1 m").length).toBe(1);
  });

  it.each(widths)("mark where seas are steep and where they break, each in its own shape, and name both: %i wide", (widthPx) => {
    const section = steepStrait();
    const { root, texts } = drawn(section, { widthPx });
    const [x0] = ringOf(root, "Anvil Road");
    const [x52] = ringOf(root, "Port Ness");
    const across = (x: number): number => ((x - x0) / (x52 - x0)) * 52;
    const spanOf = (name: string): [number, number] => {
      const xs = pointsOf(only(root, name).attributes.d!).map(([x]) => across(x));
      return [Math.min(...xs), Math.max(...xs)];
    };
    const { steep, breaking, pastNever } = section.sea!.onStream!;
    for (const [name, told] of [["section-steep", steep[0]!] as const, ["section-breaking", breaking[0]!] as const]) {
      expect(spanOf(name)[0]).toBeCloseTo(told.fromNm, 0);
      expect(spanOf(name)[1]).toBeCloseTo(told.untilNm, 0);
    }
    // Nothing is drawn as steep where it breaks.
    const inBreaking = pointsOf(only(root, "section-steep").attributes.d!).filter(
      ([x]) => across(x) > breaking[0]!.fromNm + 0.1 && across(x) < breaking[0]!.untilNm - 0.1,
    );
    expect(inBreaking).toEqual([]);
    const hatched = withClass(root, "section-past-never").filter(({ tag }) => tag === "rect");
    expect(hatched.length).toBe(1);
    expect(across(numberOf(hatched[0]!, "x"))).toBeCloseTo(pastNever[0]!.fromNm, 0);
    expect(across(numberOf(hatched[0]!, "x") + numberOf(hatched[0]!, "width"))).toBeCloseTo(pastNever[0]!.untilNm, 0);
    const said = texts.map(({ text }) => text);
    // Shorter words where the longest would leave those beside them no room.
    const whole = widthPx === 900 || widthPx === 476;
    expect(said.filter((text) => text.startsWith("breaking"))).toEqual([
      widthPx === 332
        ? "breaking"
        : expect.stringMatching(whole ? /^breaking, (up to )?1\/11, past never 1\/14$/ : /^breaking, (1\/11|past never 1\/14)$/),
    ]);
    expect(said.some((text) => text.startsWith("steep"))).toBe(true);
  });

  it("hatch the sea on the stream past its own limit where the forecast's is within it", () => {
    const shapes = (neverMetres: number | null) =>
      withClass(drawn(steepStrait(neverMetres), { widthPx: 900 }).root, "section-past-never").filter(({ tag }) => tag === "path").length;
    expect([shapes(2.1), shapes(3), shapes(null)]).toEqual([1, 0, 0]);
    const apart = words(drawn(steepStrait(1.7), { widthPx: 900 }));
    expect(apart).toContain("never 2.1 m, on the stream 1.7 m");
    const far = words(drawn(steepStrait(0.8), { widthPx: 900 }));
    expect(far).toContain("never 2.1 m");
    expect(far).toContain("never 0.8 m on the stream");
  });

  it("name the wind's own sea as that, and its swell as unknown", () => {
    const section = steepStrait();
    const told = drawn({ ...section, sea: { ...section.sea!, lacksSwell: true } }, { widthPx: 900 });
    expect(told.svg).toContain("swell unknown");
    expect(drawn(section, { widthPx: 900 }).svg).not.toContain("swell unknown");
  });

  it("show nothing of a stream that makes the sea no other", () => {
    const section = steepStrait();
    const flat = section.sea!.height.map(([a, low, high]): [number, number, number] => [a, low, high + 0.04]);
    const none = {
      ...section,
      sea: { ...section.sea!, onStream: { ...section.sea!.onStream!, height: flat, raised: null, steep: [], breaking: [], pastNever: [] } },
    };
    const [{ root, svg }, plain] = [drawn(none, { widthPx: 900 }), drawn(told, { widthPx: 900 })];
    expect(withClass(root, "section-sea-raised").length + withClass(root, "section-steep").length).toBe(0);
    const bare = (text: string): string => text.replace(/section-[a-z0-9]{5,7}-(title|words|hatch|past|order)\b/g, "$1");
    expect(bare(svg)).toBe(bare(plain.svg));
  });

  it("say in mid-stream how much of the wind blows against the stream, or with it", () => {
    // The stream sets to 208: of a wind of 20 kn from 208 all is against it, from 028 all with it, from 268 (60 degrees off) half.
    const said = (fromDegTrue: number): string[] =>
      words(drawn({ ...told, wind: [{ acrossNm: 21, clock: "04:30", fromDegTrue, kn: 20, gustKn: null }] }, { widthPx: 900 }));
    expect(said(208)).toContain("SSW 20: 20 against the stream");
    expect(said(28)).toContain("NNE 20: 20 with the stream");
    expect(said(268)).toContain("W 20: 10 against the stream");
    expect(said(298)).toContain("WNW 20: square to the stream");
  });

  it("ring a calm and draw no shaft", () => {
    const { root, texts } = drawn(hardStraits["calm, then a gale"]!(), { widthPx: 900 });
    const [barbs, rings, stations] = ["section-barb", "section-calm", "section-station"].map((name) => withClass(root, name).length);
    expect(rings).toBeGreaterThan(0);
    expect(barbs! + rings!).toBe(stations);
    expect(texts.some(({ text }) => text === "calm")).toBe(true);
  });

  it("have another set of labels for each width", () => {
    const [desk, phone] = [wide, drawn(told, { widthPx: 332 })].map(words);
    expect(desk).toContain("by the clock");
    expect(phone).not.toContain("by the clock");
    expect(phone).toContain("03");
    expect(desk).toContain("03:00");
  });
});
