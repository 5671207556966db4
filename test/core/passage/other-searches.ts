import type { EddyingFlow } from "./eddies.ts";

/**
 * Three searches for the least time in a stream, apart from the product's own and from each other, for a boat at one speed from (0, 0) to
 * (`toNm`, 0). Miles, knots, hours. Each returns the time of a way that can really be gone, so that none can be too early.
 */
export interface Task {
  readonly flow: EddyingFlow;
  readonly boatKn: number;
  readonly toNm: number;
  /** The stream is nowhere faster: what can't arrive in time with all of it behind is not looked at. */
  readonly greatestKn: number;
}

const out = new Float64Array(6);

/** Hours along straight pieces, each held on its line (Runge–Kutta 4, steps of at most `stepNm`); Infinity where it can't be. */
export function hoursAlong({ flow, boatKn }: Task, places: readonly (readonly [number, number])[], stepNm = 0.25): number {
  let hours = 0;
  for (let i = 0; i + 1 < places.length; i++) {
    const [x0, y0] = places[i] as readonly [number, number];
    const [x1, y1] = places[i + 1] as readonly [number, number];
    const length = Math.hypot(x1 - x0, y1 - y0);
    if (length === 0) continue;
    const ex = (x1 - x0) / length;
    const ey = (y1 - y0) / length;
    const slowness = (done: number, at: number): number => 1 / madeGood(flow, boatKn, x0 + done * ex, y0 + done * ey, at, ex, ey);
    const steps = Math.ceil(length / stepNm);
    const h = length / steps;
    for (let k = 0; k < steps; k++) {
      const k1 = slowness(k * h, hours);
      const k2 = slowness((k + 0.5) * h, hours + (h / 2) * k1);
      const k3 = slowness((k + 0.5) * h, hours + (h / 2) * k2);
      const k4 = slowness((k + 1) * h, hours + h * k3);
      hours += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
      if (!(hours < 1e3)) return Number.POSITIVE_INFINITY;
    }
  }
  return hours;
}

function madeGood(flow: EddyingFlow, boatKn: number, x: number, y: number, at: number, ex: number, ey: number): number {
  flow(out, x, y, at);
  const u = out[0] as number;
  const v = out[1] as number;
  const across = ex * v - ey * u;
  const room = boatKn * boatKn - across * across;
  return room > 0 ? Math.max(0, ex * u + ey * v + Math.sqrt(room)) : 0;
}

/** Extremals on 720 headings all round, those that pass the destination on either side led to it by Newton's method; the earliest. */
export function fanHours({ flow, boatKn, toNm }: Task, withinHours: number, headings = 720, steps = 72): number {
  const rate = new Float64Array(3);
  const rates = (x: number, y: number, a: number, t: number): void => {
    flow(out, x, y, t);
    const s = Math.sin(a);
    const c = Math.cos(a);
    rate[0] = boatKn * c + (out[0] as number);
    rate[1] = boatKn * s + (out[1] as number);
    rate[2] = s * s * (out[4] as number) + s * c * ((out[2] as number) - (out[5] as number)) - c * c * (out[3] as number);
  };
  const state = new Float64Array(3);
  const run = (heading: number, hours: number, path: Float64Array | null): void => {
    let x = 0;
    let y = 0;
    let a = heading;
    const h = hours / steps;
    for (let i = 0; i < steps; i++) {
      const t = i * h;
      rates(x, y, a, t);
      const x1 = rate[0] as number;
      const y1 = rate[1] as number;
      const a1 = rate[2] as number;
      rates(x + (h / 2) * x1, y + (h / 2) * y1, a + (h / 2) * a1, t + h / 2);
      const x2 = rate[0] as number;
      const y2 = rate[1] as number;
      const a2 = rate[2] as number;
      rates(x + (h / 2) * x2, y + (h / 2) * y2, a + (h / 2) * a2, t + h / 2);
      const x3 = rate[0] as number;
      const y3 = rate[1] as number;
      const a3 = rate[2] as number;
      rates(x + h * x3, y + h * y3, a + h * a3, t + h);
      x += (h / 6) * (x1 + 2 * x2 + 2 * x3 + (rate[0] as number));
      y += (h / 6) * (y1 + 2 * y2 + 2 * y3 + (rate[1] as number));
      a += (h / 6) * (a1 + 2 * a2 + 2 * a3 + (rate[2] as number));
      if (path !== null) {
        path[2 * i + 2] = x;
        path[2 * i + 3] = y;
      }
    }
    state.set([x, y, a]);
  };
  const paths = Array.from({ length: headings }, (_, i) => {
    const path = new Float64Array(2 * steps + 2);
    run((2 * Math.PI * i) / headings, withinHours, path);
    return path;
  });
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < headings; i++) {
    const one = paths[i] as Float64Array;
    const other = paths[(i + 1) % headings] as Float64Array;
    for (let k = 0; k < steps; k++) {
      if (!patchHolds(one, other, 2 * k, toNm)) continue;
      best = Math.min(best, led((2 * Math.PI * (i + 0.5)) / headings, ((k + 0.5) * withinHours) / steps));
    }
  }
  return best;

  function led(heading: number, hours: number): number {
    let a = heading;
    let time = hours;
    for (let round = 0; round < 15; round++) {
      run(a, time, null);
      const [x, y, end] = state as unknown as [number, number, number];
      const mx = toNm - x;
      const my = -y;
      if (Math.hypot(mx, my) < 1e-6) return time;
      rates(x, y, end, time);
      const [gx, gy] = rate as unknown as [number, number];
      run(a + 1e-6, time, null);
      const hx = ((state[0] as number) - x) / 1e-6;
      const hy = ((state[1] as number) - y) / 1e-6;
      const determinant = hx * gy - hy * gx;
      const turn = (mx * gy - my * gx) / determinant;
      const later = (hx * my - hy * mx) / determinant;
      const share = Math.min(1, 0.1 / Math.abs(turn), (0.2 * time) / Math.abs(later));
      a += share * turn;
      time += share * later;
      if (!(time > 0 && time < 3 * withinHours)) break;
    }
    return Number.POSITIVE_INFINITY;
  }
}

function patchHolds(one: Float64Array, other: Float64Array, k: number, x: number): boolean {
  const inTriangle = (a: Float64Array, i: number, b: Float64Array, j: number, c: Float64Array, l: number): boolean => {
    const ax = (a[i] as number) - x;
    const bx = (b[j] as number) - x;
    const cx = (c[l] as number) - x;
    const ab = ax * (b[j + 1] as number) - (a[i + 1] as number) * bx;
    const bc = bx * (c[l + 1] as number) - (b[j + 1] as number) * cx;
    const ca = cx * (a[i + 1] as number) - (c[l + 1] as number) * ax;
    return (ab >= 0 && bc >= 0 && ca >= 0) || (ab <= 0 && bc <= 0 && ca <= 0);
  };
  return inTriangle(one, k, one, k + 2, other, k) || inTriangle(one, k + 2, other, k + 2, other, k);
}

interface Heap {
  push(item: number, key: number): void;
  pop(): number;
  readonly size: number;
}

function heapOf(): Heap {
  const items: number[] = [];
  const keys: number[] = [];
  const swap = (i: number, j: number): void => {
    [items[i], items[j]] = [items[j] as number, items[i] as number];
    [keys[i], keys[j]] = [keys[j] as number, keys[i] as number];
  };
  return {
    get size() {
      return items.length;
    },
    push(item, key) {
      items.push(item);
      keys.push(key);
      for (let i = items.length - 1; i > 0 && (keys[i] as number) < (keys[(i - 1) >> 1] as number); i = (i - 1) >> 1) swap(i, (i - 1) >> 1);
    },
    pop() {
      const top = items[0] as number;
      const item = items.pop() as number;
      const key = keys.pop() as number;
      if (items.length > 0) {
        items[0] = item;
        keys[0] = key;
        for (let i = 0; ; ) {
          let child = 2 * i + 1;
          if (child >= items.length) break;
          if (child + 1 < items.length && (keys[child + 1] as number) < (keys[child] as number)) child++;
          if ((keys[child] as number) >= (keys[i] as number)) break;
          swap(i, child);
          i = child;
        }
      }
      return top;
    },
  };
}

/** Label setting at four times the product's first resolution: 96 cells to the line and 32 directions; the way found, timed. */
export function labelHours(task: Task, withinHours: number, cells = 96): number {
  const { flow, boatKn, toNm, greatestKn } = task;
  const left = (x: number, y: number): number => Math.hypot(toNm - x, y) / (boatKn + greatestKn);
  const cell = toNm / cells;
  const beyond = Math.round(0.3 * cells);
  const aside = Math.round(0.6 * cells);
  const columns = cells + 2 * beyond + 1;
  const rows = 2 * aside + 1;
  const steps: (readonly [number, number])[] = [];
  for (let i = -3; i <= 3; i++) {
    for (let j = -3; j <= 3; j++) if (gcd(Math.abs(i), Math.abs(j)) === 1) steps.push([i, j]);
  }
  const hours = new Float64Array(columns * rows).fill(Number.POSITIVE_INFINITY);
  const from = new Int32Array(columns * rows).fill(-1);
  const settled = new Uint8Array(columns * rows);
  const start = aside * columns + beyond;
  const goal = start + cells;
  const heap = heapOf();
  hours[start] = 0;
  heap.push(start, 0);
  while (heap.size > 0) {
    const node = heap.pop();
    if (settled[node] === 1) continue;
    if (node === goal) break;
    settled[node] = 1;
    const row = Math.floor(node / columns);
    const column = node - row * columns;
    const since = hours[node] as number;
    if (since > withinHours) break;
    for (const [i, j] of steps) {
      const c = column + i;
      const r = row + j;
      if (c < 0 || r < 0 || c >= columns || r >= rows || settled[r * columns + c] === 1) continue;
      const length = cell * Math.sqrt(i * i + j * j);
      const made = madeGood(
        flow,
        boatKn,
        (column - beyond + i / 2) * cell,
        (row - aside + j / 2) * cell,
        since + length / 2 / boatKn,
        (i * cell) / length,
        (j * cell) / length,
      );
      const there = since + length / made;
      if (there < (hours[r * columns + c] as number) && there + left((c - beyond) * cell, (r - aside) * cell) <= withinHours) {
        hours[r * columns + c] = there;
        from[r * columns + c] = node;
        heap.push(r * columns + c, there);
      }
    }
  }
  if (hours[goal] === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
  const places: (readonly [number, number])[] = [];
  for (let node = goal; node >= 0; node = from[node] as number) {
    const row = Math.floor(node / columns);
    places.push([(node - row * columns - beyond) * cell, (row - aside) * cell]);
  }
  return hoursAlong(task, places.reverse());
}

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/**
 * Ordered upwind (Sethian & Vladimirsky, SIAM J. Numer. Anal. 41, 2003) at a quarter of a mile: a place takes its time from the pieces of
 * the accepted front within so many cells as the speeds with and against the current there demand; the way found, traced back and timed.
 */
export function orderedUpwindHours(task: Task, withinHours: number, cell = 0.25): number {
  const { flow, boatKn, toNm, greatestKn } = task;
  const beyond = Math.ceil(10 / cell);
  const aside = Math.ceil(24 / cell);
  const columns = Math.round(toNm / cell) + 2 * beyond + 1;
  const rows = 2 * aside + 1;
  const size = columns * rows;
  const hours = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const accepted = new Uint8Array(size);
  const fromX = new Float64Array(size);
  const fromY = new Float64Array(size);
  const start = aside * columns + beyond;
  const goal = start + Math.round(toNm / cell);
  const placeX = (node: number): number => ((node % columns) - beyond) * cell;
  const placeY = (node: number): number => (Math.floor(node / columns) - aside) * cell;
  const heap = heapOf();
  const eight = [1, -1, columns, -columns, columns + 1, columns - 1, -columns + 1, -columns - 1];
  const tryFrom = (node: number, x: number, y: number, at: number): number => {
    const dx = placeX(node) - x;
    const dy = placeY(node) - y;
    const length = Math.sqrt(dx * dx + dy * dy);
    const made = madeGood(flow, boatKn, x + dx / 2, y + dy / 2, at + length / 2 / boatKn, dx / length, dy / length);
    return at + length / made;
  };
  const take = (node: number, x: number, y: number, there: number): void => {
    if (there >= (hours[node] as number)) return;
    if (there + Math.hypot(toNm - placeX(node), placeY(node)) / (boatKn + greatestKn) > withinHours) return;
    hours[node] = there;
    fromX[node] = x;
    fromY[node] = y;
    heap.push(node, there);
  };
  hours[start] = 0;
  heap.push(start, 0);
  while (heap.size > 0) {
    const node = heap.pop();
    if (accepted[node] === 1) continue;
    accepted[node] = 1;
    if (node === goal) break;
    const x = placeX(node);
    const y = placeY(node);
    const at = hours[node] as number;
    if (at > withinHours) break;
    flow(out, x, y, at);
    const rate = Math.hypot(out[0] as number, out[1] as number);
    const reach = Math.min(6, Math.max(1, Math.ceil((boatKn + rate) / Math.max(0.2, boatKn - rate))));
    const column = node % columns;
    const row = Math.floor(node / columns);
    const mates = eight.map((step) => node + step).filter((mate) => mate >= 0 && mate < size && accepted[mate] === 1);
    for (let j = -reach; j <= reach; j++) {
      for (let i = -reach; i <= reach; i++) {
        const c = column + i;
        const r = row + j;
        if ((i === 0 && j === 0) || c < 0 || r < 0 || c >= columns || r >= rows) continue;
        const to = r * columns + c;
        if (accepted[to] === 1) continue;
        take(to, x, y, tryFrom(to, x, y, at));
        for (const mate of mates) {
          const mx = (x + placeX(mate)) / 2;
          const my = (y + placeY(mate)) / 2;
          take(to, mx, my, tryFrom(to, mx, my, (at + (hours[mate] as number)) / 2));
        }
      }
    }
  }
  if (accepted[goal] === 0) return Number.POSITIVE_INFINITY;
  // Back from place to place; a place between nodes goes on from the nearest accepted node's.
  const places: (readonly [number, number])[] = [[toNm, 0]];
  let node = goal;
  for (let i = 0; i < 10_000 && node !== start; i++) {
    const x = fromX[node] as number;
    const y = fromY[node] as number;
    if (i % 8 === 7) places.push([x, y]);
    const nearest = Math.round(y / cell + aside) * columns + Math.round(x / cell + beyond);
    if (nearest === node || accepted[nearest] === 0) break;
    node = nearest;
  }
  places.push([0, 0]);
  return hoursAlong(task, places.reverse());
}
