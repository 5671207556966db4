import fc from "fast-check";
import type { SectionTold } from "../../../src/api/told/section-told.ts";

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const bearing = finite(0, 360);
const name = fc.oneof(
  fc.constantFrom("Anvil Road", "Port Ness", "The Royal Anvil and Candle Cove Yacht Haven"),
  fc.string({ unit: "binary", maxLength: 40 }),
  fc.string({ unit: "grapheme", maxLength: 20 }),
);
const clock = fc.tuple(fc.nat(23), fc.nat(59)).map(([h, m]) => `${String(h).padStart(2, "0")}:${String(m).padStart(2, "0")}`);

/** Any section that the schema allows on an invented sea, sensible or not: the drawing must bear it. */
export const anySection: fc.Arbitrary<SectionTold> = finite(0.5, 400).chain((lengthNm) => {
  const across = finite(-0.3 * lengthNm, 1.3 * lengthNm);
  const off = finite(-lengthNm, lengthNm);
  const place = fc.tuple(across, off);
  const along = (min: number, max: number) => fc.array(fc.tuple(across, finite(min, max)), { maxLength: 30 });
  const ranged = (most: number) =>
    fc.tuple(across, finite(0, most), finite(0, most)).map(([a, low, more]): [number, number, number] => [a, low, low + more]);
  const stretches = fc.array(
    fc.record({ fromNm: across, untilNm: across, greatest: finite(0.01, 1 / 7), words: fc.constantFrom("1/7 or steeper", "1/13", "1/40") }),
    { maxLength: 6 },
  );
  return fc
    .record({
      lengthNm: fc.constant(lengthNm),
      southern: fc.boolean(),
      lineDegTrue: bearing,
      side: fc.constantFrom(-90, 90),
      from: name,
      to: name,
      hours: fc.array(fc.record({ acrossNm: across, offNm: off, clock }), { maxLength: 60 }),
      paths: fc.array(
        fc.record({
          role: fc.constantFrom("order", "yardstick", "other"),
          key: fc.constantFrom("oneHeading", "fastest", "holdTrack", "bowOnDestination", "acrossThenTurn", "changingHeadings"),
          name,
          points: fc.array(place, { maxLength: 30 }),
        }),
        { maxLength: 6 },
      ),
      land: fc.array(
        fc.record({ name: fc.option(name), kind: fc.constantFrom("land", "keptOut"), ring: fc.array(place, { maxLength: 12 }) }),
        { maxLength: 4 },
      ),
      lanes: fc.array(fc.record({ name, ring: fc.array(place, { maxLength: 6 }), flowTowardDegTrue: fc.option(bearing) }), {
        maxLength: 3,
      }),
      places: fc.array(fc.record({ name, kind: fc.constantFrom("from", "to", "refuge"), acrossNm: across, offNm: off }), { maxLength: 9 }),
      streamMarks: fc.array(fc.record({ acrossNm: across, offNm: off, alongKn: finite(-9, 9), upKn: finite(-9, 9) }), { maxLength: 60 }),
      rate: fc.record({ points: fc.array(fc.tuple(across, finite(0, 12), bearing), { maxLength: 40 }) }),
      heading: fc.record({ by: fc.constantFrom("compass", "magnetic", "true"), steered: along(0, 360), overGround: along(0, 360) }),
      off: fc.array(fc.record({ streamFactor: fc.constantFrom(0.8, 1, 1.25), points: fc.array(place, { maxLength: 30 }) }), {
        maxLength: 3,
      }),
      wind: fc.array(
        fc.record({ acrossNm: across, clock, fromDegTrue: fc.option(bearing), kn: finite(0, 120), gustKn: fc.option(finite(0, 160)) }),
        { maxLength: 40 },
      ),
      sea: fc.option(
        fc.record({
          height: fc.array(ranged(6), { maxLength: 30 }),
          neverMetres: fc.option(finite(0, 6)),
          periodSeconds: along(1, 20),
          lacksSwell: fc.boolean(),
          onStream: fc.option(
            fc.record({
              height: fc.array(fc.option(ranged(9)), { maxLength: 30 }),
              raised: fc.option(ranged(9)),
              neverMetres: fc.option(finite(0, 6)),
              steepness: fc.array(fc.option(ranged(0.07)), { maxLength: 30 }),
              neverSteepness: fc.option(finite(0.01, 1 / 7)),
              neverSteepnessWords: fc.option(fc.constantFrom("1/13", "1/25")),
              steep: stretches,
              breaking: stretches,
              pastNever: stretches,
            }),
          ),
        }),
      ),
      light: fc.array(fc.record({ fromNm: across, untilNm: across, light: fc.constantFrom("night", "twilight", "day") }), { maxLength: 6 }),
      lightWords: fc.array(fc.record({ acrossNm: across, words: fc.constantFrom("sun up 06:10", "sun down Wed 17:43") }), { maxLength: 4 }),
      depth: fc.option(fc.record({ words: fc.string({ unit: "grapheme", maxLength: 160 }) })),
      axis: fc.record({ acrossNm: across, clock, rateKn: finite(0, 9) }),
      clear: fc.option(fc.record({ acrossNm: across, clock })),
      inWords: fc.string({ unit: "binary" }),
    })
    .map(({ side, paths, ...told }) => ({
      ...told,
      upDegTrue: (told.lineDegTrue + side + 360) % 360,
      paths: paths.map((path, i) => ({ ...path, letter: "ABCDEF"[i] ?? "F" })),
    })) as fc.Arbitrary<SectionTold>;
});
