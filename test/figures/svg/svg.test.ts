import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { overlap } from "../../../src/figures/svg/box.ts";
import { clippedCurve, clippedShape, inShape } from "../../../src/figures/svg/clip.ts";
import { escapeText } from "../../../src/figures/svg/escape.ts";
import { nameOfFigure } from "../../../src/figures/svg/hatch.ts";
import { Labels } from "../../../src/figures/svg/labels.ts";
import { thinned } from "../../../src/figures/svg/path.ts";
import { px } from "../../../src/figures/svg/px.ts";
import { boxOf, type Line } from "../../../src/figures/svg/text.ts";
import { fitted, textWidthPx, wrapped } from "../../../src/figures/svg/text-width.ts";
import { readSvg } from "./read-svg.ts";

const box = { left: 0, top: 0, right: 100, bottom: 60 };
const point = fc.tuple(fc.double({ min: -200, max: 300, noNaN: true }), fc.double({ min: -200, max: 300, noNaN: true }));
const line = (text: string, at: [number, number]): Line => ({ text, at, anchor: "middle", sizePx: 13, face: "sans", className: "a" });

describe("text in a drawing", () => {
  it("is well-formed XML whatever it holds, and reads back but for what XML forbids", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        const read = readSvg(`<a b="${escapeText(text)}">${escapeText(text)}</a>`);
        expect(read.text).toBe(read.attributes.b);
        if (/^[ -~]*$/.test(text)) expect(read.text).toBe(text);
      }),
    );
    expect(escapeText("<script>&\"'\u0000\ud800\u202e")).toBe("&lt;script&gt;&amp;&quot;&#39;");
  });

  it("is measured by the advances of its characters", () => {
    // IBM Plex Sans Condensed: every figure 540 of a thousand, an N 637.
    expect(textWidthPx("0123456789", 10)).toBeCloseTo(54 * 1.01, 6);
    expect(textWidthPx("N", 1000)).toBeCloseTo(637 * 1.01, 6);
    expect(textWidthPx("灯", 10)).toBeGreaterThan(10);
    expect(textWidthPx("e\u0301", 10)).toBe(textWidthPx("e", 10));
  });

  it("is cut and broken so that it stands within its width", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), fc.double({ min: 1, max: 300, noNaN: true }), (text, width) => {
        expect(textWidthPx(fitted(text, width, 13), 13)).toBeLessThanOrEqual(width);
        for (const each of wrapped(text, width, 13)) expect(textWidthPx(each, 13)).toBeLessThanOrEqual(width);
      }),
    );
    expect(fitted("Gull Harbour", 40, 13)).toMatch(/^G.*…$/);
    expect(wrapped("one two three", 45, 13).length).toBeGreaterThan(1);
  });
});

describe("a length", () => {
  it("is written to a tenth and never as what no drawing can show", () => {
    expect([12.04, -0.04, 7.96, 1e3].map(px)).toEqual(["12", "0", "8", "1000"]);
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY]) expect(() => px(bad)).toThrow(/no length/);
  });
});

describe("cutting to a box", () => {
  it("leaves strokes and shapes inside it", () => {
    fc.assert(
      fc.property(fc.array(point, { maxLength: 12 }), (points) => {
        const inside = ([x, y]: readonly [number, number]): boolean => x >= -1e-6 && x <= 100 + 1e-6 && y >= -1e-6 && y <= 60 + 1e-6;
        for (const piece of clippedCurve(points, box)) expect(piece.every(inside)).toBe(true);
        expect(clippedShape(points, box).every(inside)).toBe(true);
      }),
    );
  });

  it("cuts a stroke where it meets the sides", () => {
    expect(
      clippedCurve(
        [
          [-50, 30],
          [150, 30],
        ],
        box,
      ),
    ).toEqual([
      [
        [0, 30],
        [100, 30],
      ],
    ]);
    expect(
      clippedCurve(
        [
          [50, 30],
          [50, 90],
          [70, 90],
          [70, 30],
        ],
        box,
      ),
    ).toEqual([
      [
        [50, 30],
        [50, 60],
      ],
      [
        [70, 60],
        [70, 30],
      ],
    ]);
    expect(
      clippedCurve(
        [
          [0, -5],
          [50, -5],
        ],
        box,
      ),
    ).toEqual([]);
  });

  it("keeps of a shape what lies in the box, and all of it", () => {
    fc.assert(
      fc.property(
        point,
        point,
        point,
        fc.tuple(fc.double({ min: 1, max: 99, noNaN: true }), fc.double({ min: 1, max: 59, noNaN: true })),
        (a, b, c, at) => {
          const area = Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]));
          fc.pre(area > 1);
          const cut = clippedShape([a, b, c], box);
          const near = [
            [a, b],
            [b, c],
            [c, a],
          ].some(([p, q]) => {
            const [dx, dy] = [q![0] - p![0], q![1] - p![1]];
            return Math.abs(dx * (at[1] - p![1]) - dy * (at[0] - p![0])) < 1e-6 * Math.hypot(dx, dy);
          });
          if (!near) expect(inShape(cut, at)).toBe(inShape([a, b, c], at));
        },
      ),
    );
  });
});

describe("thinning a stroke", () => {
  it("keeps its ends and no point it drops lies farther off than is allowed", () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 40 }), (points) => {
        const kept = thinned(points, 5);
        expect([kept[0], kept.at(-1)]).toEqual([points[0], points.at(-1)]);
        const away = (p: readonly [number, number]): number =>
          Math.min(
            ...kept.slice(1).map((b, i) => {
              const a = kept[i]!;
              const square = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2;
              const t =
                square === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / square));
              return Math.hypot(p[0] - a[0] - t * (b[0] - a[0]), p[1] - a[1] - t * (b[1] - a[1]));
            }),
          );
        for (const each of points) expect(away(each)).toBeLessThanOrEqual(5 + 1e-9);
      }),
    );
  });
});

describe("labels", () => {
  it("never stand on one another nor outside", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom("3.2 kn", "Port Ness", "clear 06:50"), point), { maxLength: 25 }), (wanted) => {
        const labels = new Labels(box);
        const set = wanted
          .map(([text, at]) => labels.set([line(text, at), line(text, [at[0], at[1] + 15])]))
          .filter((each) => each !== null);
        const boxes = set.map(boxOf);
        boxes.forEach((a, i) => {
          for (const b of boxes.slice(i + 1)) expect(overlap(a, b)).toBe(false);
          expect(a.left >= 0 && a.right <= 100 && a.top >= 0 && a.bottom <= 60).toBe(true);
        });
      }),
    );
  });

  it("take a free place before one on a curve, and shorter words where the longer have none", () => {
    const labels = new Labels(box);
    labels.avoid([
      [0, 20],
      [100, 20],
    ]);
    expect(labels.set([line("3.2 kn", [50, 22]), line("3.2 kn", [50, 50])])?.at).toEqual([50, 50]);
    expect(labels.set([line("far too long for this little drawing", [50, 22]), line("short", [50, 22])])?.text).toBe("short");
    expect(labels.set([line("again", [50, 50])])).toBeNull();
    expect(labels.set([line("on it", [20, 22])], { mostCovered: 0 })).toBeNull();
  });
});

describe("the name of a figure", () => {
  it("differs with what it shows", () => {
    const names = [1, 2, "1", [1], { a: 1 }].map((shown) => nameOfFigure("section", shown));
    expect(new Set(names).size).toBe(5);
    expect(nameOfFigure("section", [1])).toBe(names[3]);
  });
});
