import { describe, expect, it } from "vitest";
import type { NoAnswer } from "../../../src/core/answers/index.ts";
import { decide, type Margin, type Slack, type TimeInHand, timeInHand } from "../../../src/core/window/index.ts";
import { clock, limit } from "./setup.ts";

const where = { latitudeDeg: 34, longitudeDeg: -41 };
const wind = limit("windMps", 15, 25);
const gust = limit("gustMps", 20, 30);

const worst = (margin: number) => ({ margin, value: 0, peakValue: 0, at: clock(6), where, firstPastNeverAt: margin < 0 ? clock(5) : null });
const judged = (of: typeof wind, margin: number): Margin => ({ kind: "judged", limit: of, ...worst(margin) });
const why: NoAnswer = {
  kind: "noAnswer",
  code: "not-covered-time",
  quantity: "gustMps",
  at: clock(9),
  where,
  coveredFrom: null,
  coveredUntil: clock(8),
};
const unjudged = (of: typeof wind, known: number | null): Margin => ({
  kind: "notJudged",
  limit: of,
  why,
  knownPart: known === null ? null : worst(known),
});

/** Time in hand with one door, so many minutes off. */
function inHand(minutes: number | null): TimeInHand {
  const none: Slack = { seconds: 86400, door: null };
  const later: Slack = minutes === null ? none : { seconds: minutes * 60, door: { kind: "limit", felt: "windMps" } };
  return timeInHand(later, { ...none, speedShare: 0.8 }, none);
}

describe("a departure is", () => {
  it("closed below 0, marginal below 0.15, open from there on", () => {
    for (const [margin, kind] of [
      [-0.001, "closed"],
      [0, "marginal"],
      [0.1499, "marginal"],
      [0.15, "open"],
      [1.4, "open"],
    ] as const) {
      const verdict = decide([judged(gust, 0.9 + Math.max(0, margin)), judged(wind, margin)], inHand(300));
      expect([margin, verdict.kind]).toEqual([margin, kind]);
      expect(verdict.decidedBy).toMatchObject({ kind: "margin", margin: { limit: wind } });
      expect(verdict.smallestMargin).toBe(margin);
    }
  });

  it("marginal at best where a limit is not judged, however good the rest", () => {
    const verdict = decide([judged(wind, 1.2), unjudged(gust, 0.6)], inHand(300));
    expect(verdict.kind).toBe("marginal");
    expect(verdict.decidedBy).toMatchObject({ kind: "notJudged", margin: { limit: gust } });
    expect(verdict.smallestMargin).toBe(0.6);
    expect(decide([unjudged(gust, null)], null)).toMatchObject({ kind: "marginal", smallestMargin: null });
  });

  it("marginal at best where it runs through a current that is not fit, before what is not judged for it; closed all the same past never", () => {
    const notFit: NoAnswer = { kind: "noAnswer", code: "current-not-fit", at: clock(7), where };
    const none = { fault: null, cures: [] };
    expect(decide([judged(wind, 1.2)], inHand(300), none, notFit)).toEqual({
      kind: "marginal",
      decidedBy: { kind: "currentNotFit", why: notFit },
      smallestMargin: 1.2,
    });
    expect(decide([unjudged(gust, 0.6)], null, none, notFit).decidedBy.kind).toBe("currentNotFit");
    expect(decide([judged(wind, -0.1)], null, none, notFit).kind).toBe("closed");
    expect(decide([judged(wind, 1.2)], inHand(300), none, null).kind).toBe("open");
  });

  it("closed where the known part of a limit not judged whole is already past never", () => {
    const verdict = decide([judged(wind, 1.2), unjudged(gust, -0.2)], null);
    expect(verdict.kind).toBe("closed");
    expect(verdict.decidedBy).toMatchObject({ kind: "margin", margin: { limit: gust, margin: -0.2, firstPastNeverAt: clock(5) } });
  });

  it("closed by a judged limit while another is not judged", () => {
    expect(decide([unjudged(gust, 0.6), judged(wind, -0.1)], null)).toMatchObject({ kind: "closed", smallestMargin: -0.1 });
  });

  it("marginal without a limit", () => {
    expect(decide([], null)).toEqual({ kind: "marginal", decidedBy: { kind: "noLimits" }, smallestMargin: null });
  });

  it("marginal with less than an hour in hand, whatever the margins; open with an hour, and where no door was met", () => {
    expect(decide([judged(wind, 1.2)], inHand(59))).toMatchObject({ kind: "marginal", decidedBy: { kind: "littleTime" } });
    expect(decide([judged(wind, 1.2)], inHand(60)).kind).toBe("open");
    expect(decide([judged(wind, 1.2)], inHand(null)).kind).toBe("open");
  });

  it("told by its margin first where both the margin and the time are short", () => {
    expect(decide([judged(wind, 0.1)], inHand(10)).decidedBy.kind).toBe("margin");
  });
});
