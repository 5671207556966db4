import { describe, expect, it } from "vitest";
import { geodesicBetween, geodesicFrom, planeAround, positionOf, rhumbBetween } from "../../../src/core/earth/index.ts";
import { courseToSteer, crossingOf, holdTrack, lineBetweenPositions, oneHeading, waysAcross } from "../../../src/core/passage/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { type CurrentSource, sketchCurrent, uniformCurrent } from "../../../src/core/water/index.ts";
import { arriving, HOUR, headingOf, KN, NM, powerBoat } from "./waters.ts";

const apartDeg = (a: number, b: number): number => Math.abs(((a - b + 540) % 360) - 180);

/** A plane at 34°S and a line well to one side of its middle: the convergence changes along it and does not cancel out. */
const centre = positionOf(-34, 20);
const plane = planeAround(centre, 90 * NM);
const from = positionOf(-34.45, 18.9);
const to = positionOf(-34.35, 20.1);
const line = lineBetweenPositions(plane, from, to);
const over = (current: CurrentSource, boatKn = 5) =>
  crossingOf(
    line,
    { plane, current: current.onPlane(plane), currentCovers: current.covers, wind: null, windCovers: null },
    powerBoat(boatKn),
  );
const still = uniformCurrent(0, 0);

describe("on a plane with convergence, against the ellipsoid", () => {
  it("one heading in still water is the rhumb line: its bearing, its length", () => {
    const rhumb = rhumbBetween(from, to);
    const way = arriving(oneHeading(over(still), 0));
    expect(apartDeg(headingOf(way), rhumb.bearingDegTrue)).toBeLessThan(0.01);
    const hours = rhumb.distanceMetres / (5 * KN) / HOUR;
    expect(Math.abs(way.arrivalAt / HOUR - hours)).toBeLessThan(1e-4 * hours);
    // It strays from the geodesic as rhumb lines do, toward the equator: to port of a line to the east in the south.
    const end = plane.toPosition(way.track.xMetres[way.track.count - 1]!, way.track.yMetres[way.track.count - 1]!);
    expect(geodesicBetween(end, to).distanceMetres).toBeLessThan(0.05);
  });

  it("one heading in a current that sets the same everywhere is the course to steer for the rhumb line", () => {
    const rhumb = rhumbBetween(from, to);
    for (const set of [0, 60, 215]) {
      const steer = courseToSteer(rhumb.bearingDegTrue, 5, set, 2);
      if (steer === "cannotHold") throw new Error("cannot hold");
      const way = arriving(oneHeading(over(uniformCurrent(set, 2 * KN)), 0));
      const hours = rhumb.distanceMetres / (steer.speedMadeGood * KN) / HOUR;
      expect(apartDeg(headingOf(way), steer.headingDeg)).toBeLessThan(0.01);
      expect(Math.abs(way.arrivalAt / HOUR - hours)).toBeLessThan(1e-4 * hours);
    }
  });

  it.each([
    { name: "still water", current: still },
    { name: "a current across", current: uniformCurrent(0, 3 * KN) },
  ])("a held track stays within metres of the geodesic: $name", ({ current }) => {
    const leg = geodesicBetween(from, to);
    const way = arriving(holdTrack(over(current), 0));
    let farthest = 0;
    for (let i = 0; i < way.track.count; i++) {
      const at = plane.toPosition(way.track.xMetres[i]!, way.track.yMetres[i]!);
      const nearest = geodesicFrom(from, leg.initialBearingDegTrue, geodesicBetween(from, at).distanceMetres).position;
      farthest = Math.max(farthest, geodesicBetween(at, nearest).distanceMetres);
    }
    expect(farthest).toBeLessThan(5);
    expect(Math.abs(way.overGroundMetres - leg.distanceMetres)).toBeLessThan(1e-4 * leg.distanceMetres);
  });

  it("a held track in still water has the geodesic's bearings", () => {
    const leg = geodesicBetween(from, to);
    const { track, orders } = arriving(holdTrack(over(still), 0));
    expect(apartDeg(track.headingDegTrue[0]!, leg.initialBearingDegTrue)).toBeLessThan(0.01);
    expect(apartDeg(track.headingDegTrue[track.count - 1]!, leg.finalBearingDegTrue)).toBeLessThan(0.01);
    const told = orders[0]?.steer;
    if (told?.kind !== "holdTrack") throw new Error("no track told");
    expect(apartDeg(told.trackDegTrue, leg.initialBearingDegTrue)).toBeLessThan(0.01);
  });

  it("every way over a sketched stream arrives at the destination itself", () => {
    const stream = sketchCurrent({
      name: "invented stream",
      at: positionOf(-34.2, 20),
      axisTowardDegTrue: 215,
      from: epochSeconds(0),
      until: epochSeconds(5 * 86_400),
      section: [-60, -14, 0, 14, 60].map((miles, i) => ({
        acrossMetres: miles * NM,
        rateMps: [0.1, 0.3, 3, 0.3, 0.1][i]! * KN,
        setDegTrue: null,
      })),
    });
    const { ways, stream: seen } = waysAcross(over(stream), 0);
    for (const way of ways) {
      const { track, name } = arriving(way);
      const end = plane.toPosition(track.xMetres[track.count - 1]!, track.yMetres[track.count - 1]!);
      expect(geodesicBetween(end, to).distanceMetres, name).toBeLessThan(0.05);
    }
    // Going east over a stream that sets to the south-west, down-stream is to starboard.
    expect(seen?.downStreamSide).toBe(1);
    const square = arriving(ways[1]!).orders[0]?.steer;
    if (square?.kind !== "heading") throw new Error("no heading square to the set");
    expect(apartDeg(square.headingDegTrue, 125)).toBeLessThan(0.01);
  });

  it("a sketch whose axis is given far beyond the plane serves all the same", () => {
    const far = { name: "far", axisTowardDegTrue: 90, from: null, until: null };
    const section = [-200, 200].map((miles) => ({ acrossMetres: miles * NM, rateMps: 1, setDegTrue: null }));
    const current = sketchCurrent({ ...far, at: positionOf(-34, 15), section });
    expect(oneHeading(over(current), 0).kind).toBe("arrives");
  });
});
