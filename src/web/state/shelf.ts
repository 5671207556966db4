/** Answers kept by key, the least lately wanted thrown away first. */
export interface Shelf<T> {
  readonly take: (key: string) => T | undefined;
  readonly has: (key: string) => boolean;
  readonly put: (key: string, value: T) => void;
  readonly clear: () => void;
}

/** A shelf with room for so many answers. */
export function shelfOf<T>(room: number): Shelf<T> {
  const kept = new Map<string, T>();
  return {
    take(key) {
      const value = kept.get(key);
      if (value === undefined) return undefined;
      kept.delete(key);
      kept.set(key, value);
      return value;
    },
    has: (key) => kept.has(key),
    put(key, value) {
      kept.delete(key);
      kept.set(key, value);
      for (const oldest of kept.keys()) {
        if (kept.size <= room) break;
        kept.delete(oldest);
      }
    },
    clear: () => kept.clear(),
  };
}
