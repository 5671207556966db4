import type { SkyAnswer } from "../../api/index.ts";
import type { HorizonDay } from "../../core/earth/index.ts";
import { clock, crossingsInWords, longDate, position, type SkyLine, throughoutInWords, zoneLabel } from "../../words/index.ts";
import { cell, wrap } from "./wrap.ts";

/** The light of a day as text: a line for each twilight, the sun and the moon, every time with its zone. */
export function skyText(answer: SkyAnswer): string {
  const { light, moon, zone, place } = answer;
  const where = position(place.latitudeDeg, place.longitudeDeg);
  const rows: readonly (readonly [SkyLine, string, HorizonDay])[] = [
    ["nautical", "nautical twilight", light.nautical],
    ["civil", "civil twilight", light.civil],
    ["sun", "sun", light.sun],
    ["moon", "moon", moon],
  ];
  const lines = rows.map(([line, name, day]) => {
    const all = throughoutInWords(day, line);
    const opening = `  ${cell(name, 19)}`;
    return all === null
      ? `${opening}${cell(crossingsInWords(day, "up", zone), 22)}${crossingsInWords(day, "down", zone)}`
      : `${opening}${all}`;
  });
  const lit = `${Math.round(answer.moonLitShare * 100)} % lit and ${answer.moonWaxing ? "waxing" : "waning"}`;
  return `${[
    wrap(`${longDate(answer.moonLitAt, zone)}${place.name === null ? "" : `, ${place.name}`}, ${where}.`),
    [`${" ".repeat(21)}${cell("begins or rises", 22)}ends or sets`, ...lines].join("\n"),
    wrap(`The moon is ${lit} at ${clock(answer.moonLitAt, zone)} ${zoneLabel(answer.moonLitAt, zone)}.`),
    wrap(
      "At sea level with a level horizon and 34' of refraction. Twilight runs from the sun 6° (civil) or 12° (nautical) below the horizon; land and cloud are not reckoned.",
    ),
  ].join("\n\n")}\n`;
}
