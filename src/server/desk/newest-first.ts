/** A piece of work that waits its turn. */
interface Waiting {
  readonly id: number;
  readonly begin: () => Promise<void>;
  readonly drop: () => void;
}

/**
 * Does one piece of work after another, of those that wait the newest first: it is what somebody looks at now. Work that is not begun yet can
 * be dropped.
 */
export class NewestFirst {
  private readonly waiting: Waiting[] = [];
  private busy = false;

  /** What the work gives, or null where it was dropped. */
  take<T>(id: number, work: () => Promise<T>): Promise<T | null> {
    return new Promise((resolve, reject) => {
      this.waiting.push({
        id,
        begin: () => work().then(resolve, reject),
        drop: () => resolve(null),
      });
      void this.go();
    });
  }

  /** Drops what waits under a number; nothing where it is begun or done. */
  drop(id: number): void {
    const place = this.waiting.findIndex((one) => one.id === id);
    if (place >= 0) this.waiting.splice(place, 1)[0]?.drop();
  }

  private async go(): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    for (let next = this.waiting.pop(); next !== undefined; next = this.waiting.pop()) await next.begin();
    this.busy = false;
  }
}
