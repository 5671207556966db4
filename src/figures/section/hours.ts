import { drawLine } from "../svg/path.ts";
import { boxOf } from "../svg/text.ts";
import { type Ground, inFrame, lineOf } from "./ground.ts";

/** Hours are ruled no nearer than this on average, pixels: else every second, third, sixth or twelfth is. */
const RULE_APART_PX = 15;
const STRIDES = [1, 2, 3, 6, 12, 24] as const;

type Hour = Ground["section"]["hours"][number];

/** The hour of a clock such as `Thu 05:00`; null where it is no whole hour. */
function wholeHour(clock: string): number | null {
  const found = /(?:^|\s)(\d\d):00$/.exec(clock);
  return found === null ? null : Number(found[1]);
}

/** The hours that are ruled: the first node, the last, and between them every so many. */
export function ruledHours(ground: Ground): readonly Hour[] {
  const { hours } = ground.section;
  const each = (ground.map.right - ground.map.left) / Math.max(1, hours.length - 1);
  const stride = STRIDES.find((every) => each * every >= RULE_APART_PX) ?? 24;
  return hours.filter(
    (hour, i) => inFrame(ground, hour.acrossNm) && (i === 0 || i === hours.length - 1 || (wholeHour(hour.clock) ?? i) % stride === 0),
  );
}

/** Rules down through all, where the boat is at each hour. */
export function drawHourRules(ground: Ground, bottom: number): string {
  const { map } = ground;
  return ruledHours(ground)
    .map(({ acrossNm }) => drawLine([map.x(acrossNm), map.plan.top], [map.x(acrossNm), bottom], "section-rule"))
    .join("");
}

/** The row of clock times under the plan: the ends first, then whole hours wherever one has room. */
export function drawClockRow(ground: Ground): string {
  const { map, measures, section, labels } = ground;
  const y = map.plan.bottom + measures.sizes.hour * 0.85;
  const tick = measures.sizes.hour * 0.26;
  const base = y + tick + measures.sizes.hour * 0.95;
  const { hours } = section;
  const last = hours.length - 1;
  const ruled = new Set(ruledHours(ground));
  let svg = drawLine([map.left, y], [map.right, y], "section-axis");
  hours.forEach((hour, i) => {
    if (!inFrame(ground, hour.acrossNm)) return;
    const x = map.x(hour.acrossNm);
    const ends = i === 0 || i === last;
    svg += drawLine([x, y - (ends ? tick * 1.3 : tick * 0.8)], [x, y + (ruled.has(hour) ? tick : tick * 0.4)], "section-axis");
  });
  const bounds = { left: 0, right: measures.widthPx, top: y, bottom: base + measures.sizes.hour };
  const set = (hour: Hour | undefined, words: string, more = ""): void => {
    if (hour === undefined || !inFrame(ground, hour.acrossNm)) return;
    const at = map.x(hour.acrossNm);
    const line = lineOf(ground, "hour", words, [at, base], "middle", more);
    const { left, right } = boxOf(line);
    // An end's time is moved in from the edge rather than left out.
    const into = Math.max(0, 1.6 - left) - Math.max(0, right - measures.widthPx + 1.6);
    labels.set([{ ...line, at: [at + into, base] }], { bounds, gap: measures.sizes.hour * 0.4 });
  };
  set(hours[last], hours[last]?.clock ?? "", "section-bold");
  if (last > 0) set(hours[0], hours[0]?.clock ?? "", "section-bold");
  const between = hours.slice(1, -1).filter((hour) => ruled.has(hour));
  for (const stride of [12, 6, 3, 2, 1]) {
    for (const hour of between) {
      const whole = wholeHour(hour.clock);
      const already = [12, 6, 3, 2].some((more) => more > stride && (whole ?? 1) % more === 0);
      if (whole === null || whole % stride !== 0 || (already && stride < 12)) continue;
      set(hour, measures.kind === "phone" ? String(whole).padStart(2, "0") : hour.clock.slice(-5));
    }
  }
  if (measures.kind !== "phone") {
    const words = map.sense > 0 ? "by the clock" : "by the clock ←";
    labels.force(lineOf(ground, "unit", words, [measures.columnPx - measures.sizes.name, base], "end"));
  }
  return svg;
}
