/**
 * Undoes the filters of a picture's rows (ISO/IEC 15948, section 9), in place: `rows` begins as `height` times a filter's number and
 * `rowBytes` filtered bytes, and ends with the rows close together at its front. A filter looks back `pointBytes` (at least 1).
 * False where a filter's number is none of 0 to 4.
 */
export function unfilter(rows: Uint8Array, height: number, rowBytes: number, pointBytes: number): boolean {
  for (let y = 0; y < height; y++) {
    const from = y * (rowBytes + 1);
    const to = y * rowBytes;
    const filter = rows[from]!;
    if (filter > 4) return false;
    rows.copyWithin(to, from + 1, from + 1 + rowBytes);
    if (filter === 1) addLeft(rows, to, rowBytes, pointBytes);
    else if (filter === 0 || y === 0) firstRow(rows, to, rowBytes, pointBytes, filter);
    else if (filter === 2) addAbove(rows, to, rowBytes);
    else if (filter === 3) addMean(rows, to, rowBytes, pointBytes);
    else addPaeth(rows, to, rowBytes, pointBytes);
  }
  return true;
}

/** Above the first row there are noughts: nothing to add by filter 2, half the left by 3, the left by 4. */
function firstRow(rows: Uint8Array, to: number, rowBytes: number, pointBytes: number, filter: number): void {
  if (filter === 4) addLeft(rows, to, rowBytes, pointBytes);
  if (filter !== 3) return;
  for (let i = to + pointBytes; i < to + rowBytes; i++) rows[i] = rows[i]! + (rows[i - pointBytes]! >>> 1);
}

function addLeft(rows: Uint8Array, to: number, rowBytes: number, pointBytes: number): void {
  for (let i = to + pointBytes; i < to + rowBytes; i++) rows[i] = rows[i]! + rows[i - pointBytes]!;
}

function addAbove(rows: Uint8Array, to: number, rowBytes: number): void {
  for (let i = to; i < to + rowBytes; i++) rows[i] = rows[i]! + rows[i - rowBytes]!;
}

function addMean(rows: Uint8Array, to: number, rowBytes: number, pointBytes: number): void {
  const inner = to + Math.min(pointBytes, rowBytes);
  for (let i = to; i < inner; i++) rows[i] = rows[i]! + (rows[i - rowBytes]! >>> 1);
  for (let i = inner; i < to + rowBytes; i++) rows[i] = rows[i]! + ((rows[i - pointBytes]! + rows[i - rowBytes]!) >>> 1);
}

/** Adds whichever of left, above and above left is nearest to left + above − above left; in doubt in that order. */
function addPaeth(rows: Uint8Array, to: number, rowBytes: number, pointBytes: number): void {
  const inner = to + Math.min(pointBytes, rowBytes);
  for (let i = to; i < inner; i++) rows[i] = rows[i]! + rows[i - rowBytes]!;
  for (let i = inner; i < to + rowBytes; i++) {
    const left = rows[i - pointBytes]!;
    const above = rows[i - rowBytes]!;
    const aboveLeft = rows[i - rowBytes - pointBytes]!;
    const fromLeft = Math.abs(above - aboveLeft);
    const fromAbove = Math.abs(left - aboveLeft);
    const fromAboveLeft = Math.abs(left + above - 2 * aboveLeft);
    const nearest = fromLeft <= fromAbove && fromLeft <= fromAboveLeft ? left : fromAbove <= fromAboveLeft ? above : aboveLeft;
    rows[i] = rows[i]! + nearest;
  }
}
