import { type AtlasStation, type StationDoubt, TIDE_FACTS } from "../../atlas/index.ts";
import { DATUM_NAMES, NOT_CHART_DATUMS } from "../../core/water/index.ts";
import { clock, longDate, position, zoneLabel } from "../../words/index.ts";
import type { TideAnswer } from "../tide-answer.ts";
import { cell, wrap } from "./wrap.ts";

/** Farther off than this a station's tide may well be another one; common practice. */
const FAR_NM = 10;

const DOUBTS: Readonly<Record<StationDoubt, string>> = {
  datum: "Its source doubts its datum: heights may be off by a constant amount.",
  record: "Its source doubts the quality of its record.",
  "short record": "Its record is short: its datum is reckoned, not observed.",
};

/** High and low waters of a day as text: a line for each, every height with its datum, what is doubtful said. */
export function tideText(answer: TideAnswer): string {
  const { station, zone, from, turns, distanceNm, reference, others } = answer;
  const where = position(station.position.latitudeDeg, station.position.longitudeDeg);
  const off = distanceNm === null ? "" : `, ${distanceNm.toFixed(1)} nm off`;
  const lines = turns.map(({ kind, at, heightMetres }) => {
    const time = `${clock(at, zone)} ${zoneLabel(at, zone)}`;
    return `  ${cell(time, 15)}${cell(`${kind} water`, 14)}${cell(`${heightMetres.toFixed(2).replace("-", "−")} m`, 8, "right")}`;
  });
  const datum = DATUM_NAMES[station.datum];
  const said = [
    `Heights above ${station.datum}${datum === undefined ? "" : `, ${datum}`}${NOT_CHART_DATUMS.has(station.datum) ? ", which is no chart datum: don't add them to charted depths" : ""}.`,
    ...(reference === null ? [] : [`Told from ${reference.name} by its differences in time and height.`]),
    ...station.doubts.map((doubt) => DOUBTS[doubt]),
    TIDE_FACTS.caution,
    "A planning aid, not for navigation: check official tide tables.",
  ];
  const near = others.map((one) => `${nameOf(one.station)}, ${one.distanceNm.toFixed(1)} nm`);
  return `${[
    wrap(`${longDate(from, zone)}, ${nameOf(station)}, ${where}${off}.`),
    ...(distanceNm !== null && distanceNm > FAR_NM
      ? [
          wrap(
            `No station is nearer than ${distanceNm.toFixed(0)} nm: these are the station's tides, and those of the place asked about may be others.`,
          ),
        ]
      : []),
    lines.length > 0 ? lines.join("\n") : "  no high or low water this day",
    wrap(said.join(" ")),
    ...(near.length > 0 ? [wrap(`Also near: ${near.join("; ")}.`)] : []),
    wrap(`Constants: ${station.credit}${station.licence === "" ? "" : ` (${station.licence})`}.`),
  ].join("\n\n")}\n`;
}

function nameOf({ name, region, country }: AtlasStation): string {
  return [name, region, country].filter((part) => part !== "").join(", ");
}
