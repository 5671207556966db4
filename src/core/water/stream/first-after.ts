/** The place, in a list in order of time, of the first entry after an instant; the list's length where there is none. By halving. */
export function firstAfter(entries: readonly { readonly at: number }[], at: number): number {
  let [low, high] = [0, entries.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((entries[middle] as { readonly at: number }).at > at) high = middle;
    else low = middle + 1;
  }
  return low;
}
