import type { Hyperslab } from "../netcdf-types.ts";

/**
 * Cuts a block into pieces of at most `mostValues` values, or of one chunk where a chunk is larger, so that no chunk lies in two pieces
 * along the axes that are cut: each is unpacked once. In the order of the axes, the last fastest.
 */
export function* piecesOf(block: Hyperslab, chunks: readonly number[] | null, mostValues: number): Generator<Hyperslab> {
  const rank = block.count.length;
  const lengths = [...block.count];
  const size = (): number => lengths.reduce((all, length) => all * length, 1);
  for (let axis = 0; axis < rank && size() > mostValues; axis++) {
    const thick = chunks?.[axis] ?? 1;
    const room = Math.floor((mostValues * lengths[axis]!) / size());
    lengths[axis] = Math.max(Math.floor(room / thick) * thick, thick);
  }
  const cuts = block.start.map((start, axis) => cutsOf(start, block.count[axis]!, lengths[axis]!));
  const at = new Array<number>(rank).fill(0);
  for (;;) {
    const spans = cuts.map((cut, axis) => cut[at[axis]!]!);
    yield { start: spans.map((span) => span.start), count: spans.map((span) => span.count) };
    let axis = rank - 1;
    while (axis >= 0 && ++at[axis]! >= cuts[axis]!.length) at[axis--] = 0;
    if (axis < 0) return;
  }
}

/** Spans of one axis, cut at the multiples of `length` unless it is whole. */
function cutsOf(start: number, count: number, length: number): { readonly start: number; readonly count: number }[] {
  if (length >= count) return [{ start, count }];
  const spans: { start: number; count: number }[] = [];
  for (let at = start; at < start + count; ) {
    const end = Math.min(start + count, (Math.floor(at / length) + 1) * length);
    spans.push({ start: at, count: end - at });
    at = end;
  }
  return spans;
}

/** Calls back for each run of neighbours of a piece inside its block: the first value's place in the piece and in the block, and how many. */
export function eachRun(block: Hyperslab, piece: Hyperslab, run: (inPiece: number, inBlock: number, values: number) => void): void {
  const rank = piece.count.length;
  const last = rank - 1;
  const values = rank === 0 ? 1 : piece.count[last]!;
  const total = piece.count.reduce((all, length) => all * length, 1);
  const at = new Array<number>(rank).fill(0);
  for (let inPiece = 0; inPiece < total; inPiece += values) {
    let inBlock = 0;
    for (let axis = 0; axis < rank; axis++) {
      inBlock = inBlock * block.count[axis]! + piece.start[axis]! - block.start[axis]! + at[axis]!;
    }
    run(inPiece, inBlock, values);
    let axis = last - 1;
    while (axis >= 0 && ++at[axis]! >= piece.count[axis]!) at[axis--] = 0;
  }
}
