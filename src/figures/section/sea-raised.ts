import type { SectionTold } from "../../api/index.ts";

/** Nearer to the forecast's than this the two lines can't be told apart, metres. */
const APART_METRES = 0.05;

/**
 * The sea on the stream where it stands over the forecast's, in pieces of `[miles across, highest metres]`; none where the stream raises
 * it nowhere by what figures show. The places beside a raised one belong to it: the line leaves the forecast's there and falls back on it.
 */
export function raisedPieces({ height, onStream }: NonNullable<SectionTold["sea"]>): (readonly [number, number])[][] {
  if (onStream === null || onStream.raised === null) return [];
  const isOver = (i: number): boolean => (onStream.height[i]?.[2] ?? Number.NEGATIVE_INFINITY) - (height[i]?.[2] ?? 0) > APART_METRES;
  const pieces: (readonly [number, number])[][] = [];
  let piece: (readonly [number, number])[] = [];
  onStream.height.forEach((one, i) => {
    if (one !== null && (isOver(i - 1) || isOver(i) || isOver(i + 1))) piece.push([one[0], one[2]]);
    else {
      pieces.push(piece);
      piece = [];
    }
  });
  return [...pieces, piece].filter((each) => each.length > 1);
}
