/** One small GRIB2 file of each packing, bitmap, grid and product that is read, by our own writer and the encoders of the tests. */
import { encoded, maskOf, optionsFor, type SampleCoding } from "../formats/grib/ccsds-encoder.ts";
import { earthOfAxes, earthOfShape, lambertSection, mercatorSection, polarSection, rotatedSection } from "../formats/grib/grid-sections.ts";
import { encodedByOpenJpeg } from "../formats/grib/jpeg2000/codec-openjpeg.ts";
import { type ComplexSettings, type Packable, packComplex } from "../formats/grib/pack-complex.ts";
import { repacked, type Section5 } from "../formats/grib/packed-section.ts";
import { pngOf } from "../formats/grib/png-encoder.ts";
import { assembled, holes, hoursOn, joined, RUN_AT, sectionsOf, written } from "../formats/grib/sample-message.ts";
import type { Fixture } from "./fixture.ts";

type Message = Parameters<typeof written>[0];

const ROWS = 4;
const COLUMNS = 5;
const POINTS = ROWS * COLUMNS;
const crop = { southDeg: -30.6, northDeg: -30.1, westDeg: 12.8, eastDeg: 13.1, from: hoursOn(6), until: hoursOn(9) };

/** Packs whole numbers, in the order of the message. */
type Packer = (message: Uint8Array, numbers: readonly number[]) => Uint8Array;

const SCALED = { reference: -3, binaryScale: 0, decimalScale: 1 } as const;
const behind =
  (template: number, bits: number, octets: readonly number[] = []) =>
  (numbers: readonly number[]): Section5 => ({
    template,
    valueCount: numbers.length,
    bits,
    ...SCALED,
    behind: octets,
  });

function complex(settings: ComplexSettings, missing: readonly Packable[] = []): Packer {
  return (message, numbers) => {
    const sections = new Map(sectionsOf(message));
    const withMissing = numbers.map((one, i): Packable => missing[i] ?? one);
    const [section5, section7] = packComplex(withMissing, { ...SCALED, groupLength: (group) => 3 + (group % 4), ...settings });
    sections.set(5, section5);
    sections.set(7, section7);
    return assembled([...sections.values()], message[6]);
  };
}

function ccsds(coding: SampleCoding): Packer {
  const octets = [maskOf(coding), coding.blockSamples, coding.intervalBlocks >> 8, coding.intervalBlocks & 255];
  return (message, numbers) =>
    repacked(
      message,
      behind(42, coding.bits, octets)(numbers),
      encoded(numbers, coding, (residuals) => optionsFor(residuals, coding).at(-1)!),
    );
}

function ieee(octets: 4 | 8): Packer {
  return (message, numbers) => {
    const data = new DataView(new ArrayBuffer(numbers.length * octets));
    numbers.forEach((one, i) => void (octets === 4 ? data.setFloat32(i * 4, one / 10) : data.setFloat64(i * 8, one / 10)));
    const section5 = Uint8Array.from([0, 0, 0, 12, 5, 0, 0, 0, numbers.length, 0, 4, octets === 4 ? 1 : 2]);
    const sections = new Map(sectionsOf(repacked(message, behind(4, 0)(numbers), new Uint8Array(data.buffer))));
    sections.set(5, section5);
    return assembled([...sections.values()], message[6]);
  };
}

/** As a picture: the grid's where there are as many numbers as points, else one row. */
const sizeOf = (numbers: readonly number[]) =>
  numbers.length === POINTS ? { width: COLUMNS, height: ROWS } : { width: numbers.length, height: 1 };

const PACKERS: Readonly<Record<string, Packer>> = {
  simple: (message) => message,
  "IEEE of 32 bits": ieee(4),
  "IEEE of 64 bits": ieee(8),
  complex: complex({}),
  "complex with missing": complex({ missingKinds: 2 }, [4, "primary", 6, "secondary"]),
  "complex, first differences": complex({ order: 1 }),
  "complex, second differences with missing": complex({ order: 2, missingKinds: 1 }, [4, 5, 6, "primary", "primary"]),
  CCSDS: ccsds({ bits: 8, blockSamples: 8, intervalBlocks: 2, predicted: true }),
  "CCSDS as it is": ccsds({ bits: 12, blockSamples: 16, intervalBlocks: 1, wholeBytes: true }),
  PNG: (message, numbers) =>
    repacked(
      message,
      behind(41, 8, [0])(numbers),
      pngOf({ ...sizeOf(numbers), pointBits: 8, points: numbers }, { filterOf: (row) => row % 5 }),
    ),
  "PNG of 16 bits": (message, numbers) =>
    repacked(message, behind(40_010, 12, [0])(numbers), pngOf({ ...sizeOf(numbers), pointBits: 16, points: numbers })),
  "JPEG 2000": (message, numbers) =>
    repacked(
      message,
      behind(40, 8, [0, 0, 255])(numbers),
      encodedByOpenJpeg({ ...sizeOf(numbers), bits: 8, isSigned: false, samples: numbers }, { levels: numbers.length === POINTS ? 2 : 0 }),
    ),
  constant: (message, numbers) => repacked(message, behind(0, 0)(numbers), new Uint8Array(0)),
};

const numbersOf = (count: number, seed: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => 40 + ((i * 17 + seed * 29) % 61));
const messageOf = (more: Message, seed: number): Uint8Array =>
  written({ values: Float64Array.from(numbersOf(POINTS, seed), (one) => (one - 30) / 10), decimalScale: 1, ...more });

/** East and north wind at 6 and 9 h, packed in one way. */
function winds(packer: Packer, more: Message = {}, grid: Uint8Array | null = null): Uint8Array {
  const messages = [6, 9].flatMap((hour) =>
    [2, 3].map((number) => {
      const plain = messageOf({ number, validFrom: hoursOn(hour), ...more }, hour + number);
      const sections = new Map(sectionsOf(plain));
      if (grid !== null) sections.set(3, grid);
      const count = new DataView(sections.get(5)!.buffer).getUint32(5);
      return packer(assembled([...sections.values()]), numbersOf(count, hour + number));
    }),
  );
  return joined(...messages);
}

const common = { ni: COLUMNS, nj: ROWS, firstLatitudeDeg: 50, firstLongitudeDeg: 352, scanOctet: 0x40 };
const metres = { stepXMetres: 50_000, stepYMetres: 50_000 };
const GRIDS: Readonly<Record<string, readonly [Uint8Array, Partial<Fixture["crop"]>]>> = {
  Lambert: [
    lambertSection({
      ...common,
      ...metres,
      earth: earthOfShape(6),
      originLongitudeDeg: 355,
      originLatitudeDeg: 45,
      parallelsDeg: [40, 55],
    }),
    { southDeg: 50.4, northDeg: 50.9, westDeg: -7.5, eastDeg: -6 },
  ],
  "Lambert on an ellipsoid": [
    lambertSection({
      ...common,
      ...metres,
      earth: earthOfAxes(7, 6_378_137, 6_356_752, 0),
      originLongitudeDeg: 355,
      originLatitudeDeg: 45,
      parallelsDeg: [45, 45],
    }),
    { southDeg: 50.4, northDeg: 50.9, westDeg: -7.5, eastDeg: -6 },
  ],
  "polar stereographic": [
    polarSection({ ...common, ...metres, earth: earthOfShape(6), originLongitudeDeg: 352, trueScaleLatitudeDeg: 60, centreOctet: 0 }),
    { southDeg: 50.4, northDeg: 50.9, westDeg: -7.5, eastDeg: -6 },
  ],
  Mercator: [
    mercatorSection({
      ...common,
      stepXMetres: 100_000,
      stepYMetres: 100_000,
      earth: earthOfShape(6),
      firstLatitudeDeg: 0,
      firstLongitudeDeg: 358,
      lastLatitudeDeg: 2.6969,
      lastLongitudeDeg: 1.5972,
      trueScaleLatitudeDeg: 0,
    }),
    { southDeg: 1, northDeg: 1.8, westDeg: -1, eastDeg: 0.5 },
  ],
  rotated: [
    rotatedSection({
      ...common,
      firstLatitudeDeg: -1,
      firstLongitudeDeg: 358,
      lastLatitudeDeg: 2,
      lastLongitudeDeg: 2,
      stepXDeg: 1,
      stepYDeg: 1,
      southPoleLatitudeDeg: -40,
      southPoleLongitudeDeg: 10,
    }),
    { southDeg: 49.5, northDeg: 50.5, westDeg: 9.5, eastDeg: 10.5 },
  ],
};

const current = { discipline: 10, category: 1, level: { type: 160, value: 0 } } as const;
const waves = { discipline: 10, category: 0, level: { type: 1, value: null } } as const;
const member = (perturbationNumber: number) => ({
  ensemble: { kindCode: perturbationNumber === 0 ? 1 : 3, perturbationNumber, forecastsInEnsemble: 3 },
});
const global = { rows: 3, columns: 36, southDeg: -40, westDeg: 0, latitudeStepDeg: 5, longitudeStepDeg: 10 };
const dateLine = { rows: 4, columns: 5, southDeg: -31, westDeg: 179.4, latitudeStepDeg: 0.5, longitudeStepDeg: 0.25 };
const besideIt = { rows: 4, columns: 5, latitudeStepDeg: 0.5, longitudeStepDeg: 0.25 };
const turned = { iNegative: true, jConsecutive: true, alternating: true };

/** Many fields in one message: sections 4 to 7 again and again, the second bitmap that of the first. */
function subMessages(): Uint8Array {
  const [first, second] = [messageOf({ missing: holes(POINTS) }, 1), messageOf({ number: 3, missing: holes(POINTS) }, 2)].map(sectionsOf);
  const later = sectionsOf(messageOf({ number: 22 }, 3));
  const pieces = [4, 5].map((number) => second!.get(number)!);
  const again = [3, 4, 5, 6, 7].map((number) => later.get(number)!);
  return assembled([...first!.values(), ...pieces, Uint8Array.from([0, 0, 0, 6, 6, 254]), second!.get(7)!, ...again]);
}

const PRODUCTS: Readonly<Record<string, readonly [Uint8Array, Partial<Fixture["crop"]>]>> = {
  "a current": [
    joined(...[6, 9].flatMap((hour) => [2, 3].map((number) => messageOf({ ...current, number, validFrom: hoursOn(hour) }, hour)))),
    {},
  ],
  "a current by speed and direction": [joined(...[0, 1].map((number) => messageOf({ ...current, number }, number))), {}],
  "gusts over intervals": [
    joined(
      ...[6, 9, 15].map((hour) =>
        messageOf(
          { number: 22, validFrom: hoursOn(hour - 3), interval: { validUntil: hoursOn(hour), processCode: 2 }, scan: turned },
          hour,
        ),
      ),
    ),
    {},
  ],
  "mean winds over intervals": [
    joined(
      ...[2, 3].map((number) => messageOf({ number, validFrom: hoursOn(3), interval: { validUntil: hoursOn(6), processCode: 0 } }, number)),
    ),
    {},
  ],
  waves: [joined(...[3, 14, 15, 8, 9, 7, 5, 6, 4].map((number) => messageOf({ ...waves, number, missing: holes(POINTS) }, number))), {}],
  "members of an ensemble": [joined(...[0, 1, 2].flatMap((one) => [2, 3].map((number) => messageOf({ number, ...member(one) }, one)))), {}],
  "members of an ensemble over intervals": [
    joined(
      ...[0, 1].map((one) =>
        messageOf({ number: 22, validFrom: hoursOn(3), interval: { validUntil: hoursOn(6), processCode: 2 }, ...member(one) }, one),
      ),
    ),
    {},
  ],
  "many fields in one message": [subMessages(), {}],
  "two runs": [
    joined(
      ...[0, 6].flatMap((hour) =>
        [2, 3].flatMap((number) =>
          [12, 15].map((ahead) => messageOf({ number, referenceAt: hoursOn(hour), validFrom: hoursOn(ahead) }, hour + ahead)),
        ),
      ),
    ),
    { until: hoursOn(15) },
  ],
  "a grid round the earth": [
    joined(
      ...[2, 3].map((number) => written({ number, grid: global, values: new Float64Array(108).map((_, i) => i % 9), decimalScale: 0 })),
    ),
    { southDeg: -38, northDeg: -32, westDeg: -15, eastDeg: 12 },
  ],
  "a grid across 180°": [
    joined(...[2, 3].map((number) => messageOf({ number, grid: dateLine, scan: { jPositive: true } }, number))),
    { westDeg: 179.8, eastDeg: -179.9 },
  ],
  "one row and one column": [
    joined(
      ...[2, 3].map((number) =>
        written({ number, grid: { ...dateLine, rows: 1, columns: 1, westDeg: 12.9, southDeg: -30.5 }, values: Float64Array.of(3) }),
      ),
    ),
    {},
  ],
  "a component alone": [messageOf({ number: 3 }, 1), {}],
  "the other alone, half a cell on": [messageOf({ number: 2, grid: { ...besideIt, southDeg: -30.75, westDeg: 12.375 } }, 1), {}],
};

/** Every GRIB2 file that is mutated. */
export function grib2Fixtures(): readonly Fixture[] {
  const fixtures: Fixture[] = [];
  const add = (name: string, bytes: Uint8Array, more: Partial<Fixture["crop"]> = {}): void => {
    fixtures.push({ name: `GRIB2, ${name}`, structure: "grib2", bytes, crop: { ...crop, ...more } });
  };
  for (const [name, packer] of Object.entries(PACKERS)) {
    add(name, winds(packer));
    add(`${name}, bitmap`, winds(packer, { missing: holes(POINTS), scan: { jPositive: true } }));
  }
  for (const [name, [grid, more]] of Object.entries(GRIDS)) add(name, winds(PACKERS["simple"]!, {}, grid), more);
  for (const [name, [bytes, more]] of Object.entries(PRODUCTS)) add(name, bytes, more);
  return fixtures;
}

export const GRIB2_RUN_AT = RUN_AT;
