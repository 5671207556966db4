import { good, type Parsed } from "../../core/answers/index.ts";
import {
  type BoatSpec,
  checkBoat,
  HEADSAIL_ONLY_BEYOND_DEG,
  MOST_HEAD_SEA_LOSS_SHARE,
  MOTOR_SAILING_EXPONENT,
  RESERVE_BY_THIRDS,
} from "../../core/boat/index.ts";
import { checkDeviationCard } from "../../core/earth/index.ts";
import {
  parseAngle,
  parseBearing,
  parseBurn,
  parseLength,
  parseNumber,
  parseShare,
  parseSpeed,
  parseVolume,
} from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { isWithin, stepsOf } from "./path.ts";
import { parseFileName } from "./quantities.ts";
import { readGroundTackle } from "./read-ground-tackle.ts";
import type { PassageData } from "./schema.ts";
import { issueAt } from "./typed-tree.ts";

type Boat = Cursor<PassageData["boat"]>;

/** No compass of a small boat is so far out; more is a slip. Common practice. */
const LARGEST_DEVIATION_DEG = 45;

/** Beyond these a small cruising boat's figure is a slip. Common practice. */
const LARGEST_BEAM_METRES = 20;
const HIGHEST_BOW_METRES = 8;

const length = (text: string, path: string): Parsed<number> => parseLength(text, path, { positive: true });
const speed = (text: string, path: string): Parsed<number> => parseSpeed(text, path, { positive: true });
const angle = (text: string, path: string): Parsed<number> => parseAngle(text, path, { sense: "plain", min: 0, max: 180 });

/** The speed under power; the word `estimate` is null. */
function powerSpeed(text: string, path: string): Parsed<number | null> {
  return text.trim().toLowerCase() === "estimate" ? good(null) : speed(text, path);
}

/** What is kept of the usable fuel; the word `thirds` is a third. */
function parseReserve(text: string, path: string): Parsed<number> {
  return text.trim().toLowerCase() === "thirds" ? good(RESERVE_BY_THIRDS) : parseShare(text, path, { min: 0, max: 1 });
}

/** The boat in SI, and the file of its sail table where the speeds stand in one; issues are put on the cursor's page. */
export function readBoat(boat: Boat): { readonly boat: BoatSpec; readonly sailTableFile: string | null } {
  const power = boat.at("power");
  const sail = boat.at("sail");
  const rule = boat.at("engineRule");
  const motorSail = boat.at("motorSail");
  const onBelowMps = rule.at("onBelow").read(speed);
  const offAboveMps = rule.at("offAbove").read(speed);
  const headSeaLossShare = boat.at("headSeaLoss").read((text, path) => parseShare(text, path, { min: 0, max: MOST_HEAD_SEA_LOSS_SHARE }));
  const table = sail.isGiven ? readSail(sail) : null;
  const spec: BoatSpec = {
    name: boat.at("name").text() ?? "",
    lengthOverallMetres: boat.at("lengthOverall").read(length) ?? null,
    waterlineLengthMetres: boat.at("waterlineLength").read(length) ?? null,
    draughtMetres: boat.at("draught").read(length) ?? null,
    airDraughtMetres: boat.at("airDraught").read(length) ?? null,
    beamMetres: boat.at("beam").read((text, path) => parseLength(text, path, { positive: true, max: LARGEST_BEAM_METRES })) ?? null,
    bowHeightMetres: boat.at("bowHeight").read((text, path) => parseLength(text, path, { min: 0, max: HIGHEST_BOW_METRES })) ?? null,
    groundTackle: readGroundTackle(boat.at("groundTackle")),
    ...(headSeaLossShare === undefined ? {} : { headSeaLossShare }),
    goes: boat.at("goes").value ?? "power",
    power: power.isGiven ? readPower(power) : null,
    sail: table?.spec ?? null,
    engineRule: onBelowMps === undefined || offAboveMps === undefined ? null : { onBelowMps, offAboveMps },
    motorSail: {
      exponent: motorSail.at("exponent").read((text, path) => parseNumber(text, path)) ?? MOTOR_SAILING_EXPONENT,
      headsailOnlyBeyondDeg: motorSail.at("headsailOnlyBeyond").read(angle) ?? HEADSAIL_ONLY_BEYOND_DEG,
      hullSpeedMps: motorSail.at("hullSpeed").read(speed) ?? null,
    },
    compass: readCompass(boat.at("compass")),
  };
  if (boat.isGiven) checkWhole(boat, spec, table?.file ?? null);
  return { boat: spec, sailTableFile: table?.file ?? null };
}

function readPower(power: Cursor<NonNullable<PassageData["boat"]["power"]>>): NonNullable<BoatSpec["power"]> {
  const reserveShare = power.at("reserve").read(parseReserve);
  return {
    speedMps: power.at("speed").read(powerSpeed) ?? null,
    burnLitresPerHour: power.at("burn").read((text, path) => parseBurn(text, path, { positive: true })) ?? null,
    burnMeasuredAtMps: power.at("burnMeasuredAt").read(speed) ?? null,
    usableFuelLitres: power.at("usableFuel").read((text, path) => parseVolume(text, path, { positive: true })) ?? null,
    ...(reserveShare === undefined ? {} : { reserveShare }),
    headwindLossShare: power.at("headwindLoss").read((text, path) => parseShare(text, path, { min: 0, max: 1 })) ?? 0,
  };
}

function readSail(sail: Cursor<NonNullable<PassageData["boat"]["sail"]>>): {
  readonly spec: NonNullable<BoatSpec["sail"]>;
  readonly file: string | null;
} {
  const rows = sail.at("rows");
  const table = sail.at("table");
  sail.needsOneOf(["rows", "table"]);
  const points = rows.items().map((row) => ({
    trueWindAngleDeg: row.at("trueWindAngle").read(angle),
    trueWindMps: row.at("trueWindSpeed").read((text, path) => parseSpeed(text, path, { min: 0 })),
    speedMps: row.at("speed").read((text, path) => parseSpeed(text, path, { min: 0 })),
  }));
  const leeway = sail.at("leeway");
  return {
    spec: {
      points: points.every(isWhole) ? points : [],
      leewayCoefficient: leeway.at("coefficient").read((text, path) => parseNumber(text, path)) ?? null,
      leewayCapDeg: leeway.at("cap").read(angle) ?? 0,
    },
    file: table.read(parseFileName) ?? null,
  };
}

function readCompass(compass: Cursor<NonNullable<PassageData["boat"]["compass"]>>): BoatSpec["compass"] {
  const { page } = compass;
  const variationDeg =
    compass.at("variation").read((text, path) => parseAngle(text, path, { sense: "eastWest", min: -180, max: 180 })) ?? null;
  const deviation = compass.at("deviation");
  const lines = deviation.items().map((line) => ({
    headingDegMag: line.at("heading").read((text, path) => parseBearing(text, path, { north: "magnetic" })),
    deviationDeg: line
      .at("deviation")
      .read((text, path) => parseAngle(text, path, { sense: "eastWest", min: -LARGEST_DEVIATION_DEG, max: LARGEST_DEVIATION_DEG })),
  }));
  if (!lines.every(isWhole)) return { variationDeg, deviationCard: [] };
  const checked = checkDeviationCard(lines, deviation.path);
  if (!checked.ok)
    page.issues.push(
      ...checked.issues.map((one) => issueAt(page.typed, stepsOf(one.path) ?? deviation.steps, one.code, one.message, one.whatToDo)),
    );
  return { variationDeg, deviationCard: [...lines].sort((a, b) => a.headingDegMag - b.headingDegMag) };
}

/** Every value of a row was read. */
function isWhole<T extends object>(row: T): row is T & { readonly [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.values(row).every((value) => value !== undefined);
}

/** What the boat's own room finds wrong, but for places where something was found wrong already. */
function checkWhole(boat: Boat, spec: BoatSpec, sailTableFile: string | null): void {
  const { page } = boat;
  for (const one of checkBoat(spec)) {
    const elsewhere = sailTableFile !== null && touches(one.path, "boat.sail.rows");
    const unsure = one.code === "boat-incomplete" && !boat.at("goes").isGiven;
    if (elsewhere || unsure || page.issues.some((known) => touches(known.path, one.path))) continue;
    const estimate = one.code === "boat-speed-unknown" && boat.at("power").at("speed").isGiven;
    const message = estimate ? "`boat.power.speed` is to be estimated, which needs `boat.waterlineLength`, and there is none" : one.message;
    const cure = estimate ? "Give `waterlineLength` under `boat`, or the speed through the water at the cruising setting." : one.whatToDo;
    page.issues.push(issueAt(page.typed, stepsOf(one.path) ?? boat.steps, one.code, message, cure));
  }
}

/** One path is the other or lies inside it. */
function touches(a: string, b: string): boolean {
  return isWithin(a, b) || isWithin(b, a);
}
