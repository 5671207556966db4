import type { LookAtAnchor, NightAtAnchor } from "../../core/places/index.ts";
import type { NightsAnswer } from "../../core/plan/index.ts";
import { type NightAnswer, secondsToInlet } from "../../core/plan/index.ts";
import {
  anchorageInWords,
  anchorMetres,
  dayAndClock,
  fetchInWords,
  nightInWords,
  noAnswerInWords,
  seaAtAnchorInWords,
  whereToLieInWords,
  wholeKnots,
  windFromInWords,
} from "../../words/index.ts";
import { cell, WIDTH, wrap } from "./wrap.ts";

/** The nights: each with where to lie and why, then every anchorage in sentences, the best first; `hourly`: and hour by hour. */
export function anchorNightsText(answer: NightsAnswer, hourly: boolean): string {
  return answer.nights.map((night) => nightText(answer, night, hourly)).join("\n\n");
}

function nightText({ prepared }: NightsAnswer, night: NightAnswer, hourly: boolean): string {
  const head = `${wrap(`${nightInWords(night)}`)}\n${"─".repeat(WIDTH)}\n${wrap(whereToLieInWords(night))}`;
  const places = night.compared.ranked.map((place) => {
    const seconds = secondsToInlet(place.anchorage, prepared.passage);
    const mark = place === night.compared.winner ? "→ " : { holds: "  ", notJudged: "? ", untenable: "– " }[place.verdict];
    const words = wrap(anchorageInWords(place, seconds, night.side, night.zone).join(" "), WIDTH, "  ", mark);
    return hourly ? `${words}\n\n${hoursText(place, night)}` : words;
  });
  return [head, ...places].join("\n\n");
}

/** A line for each whole hour. */
function hoursText({ looks }: NightAtAnchor, { zone }: NightAnswer): string {
  const head =
    `    ${cell("", 10)}${cell("wind", 21)}${cell("gusts", 8)}${cell("up-wind", 12)}${cell("sea", 16)}${cell("keel", 8)}`.trimEnd();
  const hourly = looks.filter(({ at }) => at % 3600 === 0);
  return [head, ...hourly.map((look) => hourLine(look, zone))].join("\n");
}

function hourLine(look: LookAtAnchor, zone: string): string {
  const when = cell(dayAndClock(look.at, zone), 10);
  const keel = look.water === null ? "–" : anchorMetres(look.water.underKeelMetres);
  if (look.kind === "unknown") return `    ${when}${cell(noAnswerInWords(look.why, zone), 57)}${keel}`.trimEnd();
  const wind = `${windFromInWords(look.wind)} ${wholeKnots(look.wind.windMps)}`;
  return `    ${when}${cell(wind, 21)}${cell(wholeKnots(look.gustMps), 8)}${cell(fetchInWords(look), 12)}${cell(seaAtAnchorInWords(look), 16)}${keel}`.trimEnd();
}
