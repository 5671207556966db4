/** Keeps a word in this browser for the next time; a browser that keeps nothing is no fault. */
export function remember(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // Nothing depends on it: the address says the same.
  }
}

/** A word kept before; null where there is none. */
export function remembered(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}
