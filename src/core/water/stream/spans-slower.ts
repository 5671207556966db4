import type { TidalStream } from "./tidal-stream.ts";

/** Between looks, seconds: slacks that are shorter are not found where the stream runs faster on both sides. */
const LOOK_SECONDS = 120;

/**
 * The stretches of [from, until) in which a stream's whole rate is not above a rate, m/s, in order of time, their ends to a second. Around
 * every slack it is looked at closely, so that none is missed however fast the stream turns.
 */
export function spansSlower(
  stream: TidalStream,
  rateMps: number,
  from: number,
  until: number,
): readonly { readonly from: number; readonly until: number }[] {
  const out = new Float64Array(2);
  const isSlower = (at: number): boolean => {
    stream.vectorInto(out, at);
    return Math.hypot(out[0] as number, out[1] as number) <= rateMps;
  };
  const looks = new Set<number>([from, until]);
  for (let at = from; at < until; at += LOOK_SECONDS) looks.add(at);
  for (const { at } of stream.turns(from, until)) looks.add(at);
  const times = [...looks].sort((one, other) => one - other);
  const edge = (left: number, right: number, leftSlower: boolean): number => {
    let [low, high] = [left, right];
    while (high - low > 0.5) {
      const middle = (low + high) / 2;
      if (isSlower(middle) === leftSlower) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  const spans: { from: number; until: number }[] = [];
  let slower = isSlower(from);
  let begun = from;
  for (let i = 1; i < times.length; i++) {
    const now = isSlower(times[i] as number);
    if (now === slower) continue;
    const at = edge(times[i - 1] as number, times[i] as number, slower);
    if (slower) spans.push({ from: begun, until: at });
    else begun = at;
    slower = now;
  }
  if (slower && until > begun) spans.push({ from: begun, until });
  return spans;
}
