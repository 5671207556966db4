// @ts-check
/**
 * Milliseconds a run takes: the median of several batches, after warming up.
 * @param {() => unknown} run
 */
export function perRun(run) {
  for (let i = 0; i < 20; i++) run();
  const batches = [];
  for (let b = 0; b < 7; b++) {
    const from = performance.now();
    let runs = 0;
    while (performance.now() - from < 30) {
      run();
      runs++;
    }
    batches.push((performance.now() - from) / runs);
  }
  return median(batches);
}

/** @param {readonly number[]} values */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}
