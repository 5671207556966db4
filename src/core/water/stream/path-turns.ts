import { type AlongTurn, extremeKind } from "./stream-curve.ts";

/** The turns of a rate that runs in straight lines between points: slacks where it changes its sign, greatest and least rates where it turns. */
export function pathTurns(times: readonly number[], alongMps: readonly number[]): readonly AlongTurn[] {
  const turns: AlongTurn[] = [];
  let signBefore = 0;
  let signAt = 0;
  let slope = 0;
  let levelFrom = times[0] as number;
  for (let i = 0; i < times.length; i++) {
    const [at, along] = [times[i] as number, alongMps[i] as number];
    const before = i === 0 ? along : (alongMps[i - 1] as number);
    const rise = Math.sign(along - before);
    if (rise !== 0) {
      // Level stretches turn in their middle.
      const top = ((times[i - 1] as number) + levelFrom) / 2;
      if (slope !== 0 && rise !== slope && before !== 0) turns.push({ kind: extremeKind(slope > 0, before), at: top, alongMps: before });
      slope = rise;
      levelFrom = at;
    }
    const sign = Math.sign(along);
    if (sign === 0) continue;
    if (signBefore !== 0 && sign !== signBefore) {
      const last = times[i - 1] as number;
      // From a point of still water, or from the last point on the other side, by a straight line.
      const slackAt =
        before === 0
          ? signAt === i - 2
            ? last
            : ((times[signAt + 1] as number) + last) / 2
          : last + ((at - last) * before) / (before - along);
      turns.push({ kind: sign > 0 ? "slack before flood" : "slack before ebb", at: slackAt, alongMps: 0 });
    }
    signBefore = sign;
    signAt = i;
  }
  return turns.sort((one, other) => one.at - other.at);
}
