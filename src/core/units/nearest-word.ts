/**
 * The candidate nearest to a mistyped word, for "did you mean …?", or null when none is near. Upper and lower case are one. The
 * distance is that of Damerau (1964) and Levenshtein (1966) in its restricted form: a letter put in, left out or changed, or two
 * neighbours changed about, counts 1. `limit` is the greatest distance taken as near: unless given, one letter in three of
 * the word, at least one, and none where the word is a single letter.
 * Of equally near candidates the first is returned.
 */
export function nearestWord(word: string, candidates: Iterable<string>, limit?: number): string | null {
  const wanted = word.toLowerCase();
  const greatest = limit ?? (wanted.length < 2 ? 0 : Math.max(1, Math.floor(wanted.length / 3)));
  let nearest: string | null = null;
  let least = greatest + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - wanted.length) >= least) continue;
    const distance = editDistance(wanted, candidate.toLowerCase());
    if (distance < least) {
      least = distance;
      nearest = candidate;
    }
  }
  return nearest;
}

/** The number of single-letter slips (in, out, changed, neighbours swapped) between two words. */
export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(changed, last[j]! + 1, row[j - 1]! + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, beforeLast[j - 2]! + 1);
      row.push(least);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}
