import type { DepartureTold, VerdictTold } from "../../api/index.ts";
import { type BarKind, drawMarginBar } from "../board/margin-bar.ts";
import { escapeHtml, unseen } from "../html/escape.ts";

type LimitMet = DepartureTold["limits"][number];

/** How limits are set. */
export interface LimitsLook {
  readonly marginalBelow: number;
  readonly kind: BarKind;
}

/**
 * Every limit of a departure: how near it comes to *never*, the worst of it, when and how many miles across. The bars are those of the board.
 *
 * @returns a table; a sentence where no limit is set
 */
export function drawLimits(departure: Pick<DepartureTold, "limits">, look: LimitsLook): string {
  if (departure.limits.length === 0) return `<p class="quiet">No limit is set.</p>`;
  const compact = look.kind === "compact";
  const rows = departure.limits.map((limit) => (compact ? compactRow(limit, look) : wideRow(limit, look)));
  const shutOpen = `<th scope="col" class="barcell"><span class="heads"><span>shut</span><span>open</span></span></th>`;
  const heads = compact
    ? `<th scope="col">limit; the worst of it</th>${shutOpen}`
    : `<th scope="col">limit</th>${shutOpen}<th scope="col" class="figure">${unseen("margin")}</th>` +
      `<th scope="col">the worst of it</th><th scope="col" class="right">at</th><th scope="col" class="right">miles across</th>`;
  return `<table class="plain limits${compact ? " is-compact" : ""}"><thead><tr>${heads}</tr></thead><tbody>${rows.join("")}</tbody></table>`;
}

function verdictOf(limit: LimitMet, marginalBelow: number): VerdictTold {
  if (!limit.judged || limit.margin === null) return "notJudged";
  if (limit.margin < 0) return "closed";
  return limit.margin < marginalBelow ? "marginal" : "open";
}

function bar(limit: LimitMet, look: LimitsLook): string {
  return drawMarginBar(
    { verdict: verdictOf(limit, look.marginalBelow), margin: limit.margin, marginalBelow: look.marginalBelow },
    look.kind,
  );
}

function worst(limit: LimitMet): string {
  const past = limit.pastNever === null ? "" : `<span class="past">past never from ${escapeHtml(limit.pastNever)}</span>`;
  const notJudged = limit.judged ? "" : `<b>not judged</b>${limit.words === "" ? "" : ": "}`;
  return `${notJudged}${escapeHtml(limit.words)}${past === "" ? "" : "; "}${past}`;
}

function wideRow(limit: LimitMet, look: LimitsLook): string {
  return (
    `<tr class="is-${verdictOf(limit, look.marginalBelow)}"><th scope="row">${escapeHtml(limit.limit)}</th><td class="barcell">${bar(limit, look)}</td>` +
    `<td class="figure">${escapeHtml(limit.figure)}</td><td>${worst(limit)}</td>` +
    `<td class="right nowrap">${escapeHtml(limit.when ?? "")}</td><td class="right nowrap">${escapeHtml(limit.across ?? "")}</td></tr>`
  );
}

function compactRow(limit: LimitMet, look: LimitsLook): string {
  const side = limit.margin !== null && limit.margin < 0 ? "figure-right" : "figure-left";
  const where = [limit.when, limit.across === null ? null : acrossInWords(limit.across)].filter((words) => words !== null).join(", ");
  return (
    `<tr class="is-${verdictOf(limit, look.marginalBelow)}"><th scope="row">${escapeHtml(limit.limit)}<span class="below">${worst(limit)}</span>` +
    `${where === "" ? "" : `<span class="below quiet">${escapeHtml(where)}</span>`}</th>` +
    `<td class="barcell">${bar(limit, look)}<span class="figure ${side}">${escapeHtml(limit.figure)}</span></td></tr>`
  );
}

/** `31` is said in full; what is in words already stands. */
function acrossInWords(across: string): string {
  return /^[\d.]+$/.test(across) ? `${across} miles across` : across;
}
