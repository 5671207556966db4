import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { overlap } from "../../../src/figures/svg/box.ts";
import { withClass } from "../svg/read-svg.ts";
import { anySection } from "./any-section.ts";
import { boxOfText, drawn, everyPoint, numberOf, widths } from "./drawn.ts";

describe("any section at all", () => {
  it("is drawn whole within its frame, no label on another", { timeout: 240_000 }, () => {
    fc.assert(
      fc.property(anySection, fc.oneof(fc.constantFrom(...widths), fc.integer({ min: 300, max: 1100 })), (told, widthPx) => {
        const { svg, root, texts } = drawn(told, { widthPx });
        expect(svg).not.toMatch(/NaN|undefined|Infinity/);
        const [width, height] = [numberOf(root, "width"), numberOf(root, "height")];
        for (const [x, y] of everyPoint(root)) {
          expect(x >= -1 && x <= width + 1 && y >= -1 && y <= height + 1, `${x} ${y} in ${width} × ${height}`).toBe(true);
        }
        const boxes = texts.map((text) => ({ text: text.text, box: boxOfText(text) }));
        boxes.forEach((a, i) => {
          const { left, right, top, bottom } = a.box;
          expect(left >= -1 && right <= width + 1 && top >= -1 && bottom <= height + 1, `${a.text} in the frame`).toBe(true);
          for (const b of boxes.slice(i + 1)) expect(overlap(a.box, b.box) ? `${a.text} on ${b.text}` : "").toBe("");
        });
        expect(withClass(root, "section-station").length).toBeLessThanOrEqual(told.wind.length);
      }),
      { numRuns: 150 },
    );
  });
});
