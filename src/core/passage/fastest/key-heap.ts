/** A heap of numbers with keys, least key first; equal keys by number, so that the order never depends on how it was filled. */
export class KeyHeap {
  private keys = new Float64Array(1024);
  private items = new Int32Array(1024);
  private count = 0;

  get size(): number {
    return this.count;
  }

  get leastKey(): number {
    return this.keys[0] as number;
  }

  clear(): void {
    this.count = 0;
  }

  push(item: number, key: number): void {
    if (this.count === this.items.length) this.grow();
    const { keys, items } = this;
    let hole = this.count++;
    while (hole > 0) {
      const parent = (hole - 1) >> 1;
      const above = keys[parent] as number;
      if (above < key || (above === key && (items[parent] as number) <= item)) break;
      keys[hole] = above;
      items[hole] = items[parent] as number;
      hole = parent;
    }
    keys[hole] = key;
    items[hole] = item;
  }

  /** Takes out the item with the least key. */
  pop(): number {
    const { keys, items } = this;
    const top = items[0] as number;
    const last = --this.count;
    const key = keys[last] as number;
    const item = items[last] as number;
    let hole = 0;
    for (;;) {
      let child = 2 * hole + 1;
      if (child >= last) break;
      const right = child + 1;
      if (right < last && this.isBefore(right, child)) child = right;
      const below = keys[child] as number;
      if (key < below || (key === below && item <= (items[child] as number))) break;
      keys[hole] = below;
      items[hole] = items[child] as number;
      hole = child;
    }
    keys[hole] = key;
    items[hole] = item;
    return top;
  }

  private isBefore(a: number, b: number): boolean {
    const ka = this.keys[a] as number;
    const kb = this.keys[b] as number;
    return ka < kb || (ka === kb && (this.items[a] as number) < (this.items[b] as number));
  }

  private grow(): void {
    const keys = new Float64Array(2 * this.keys.length);
    keys.set(this.keys);
    this.keys = keys;
    const items = new Int32Array(2 * this.items.length);
    items.set(this.items);
    this.items = items;
  }
}
