// @ts-check

/** @typedef {{ passed: number, failed: number, skipped: number }} Counts */

/**
 * What a vitest run came to. A file that could not be loaded, an error outside any test, or a run without a report each count as
 * one failure, so that a run that went wrong is never counted as clean.
 * @param {{ numPassedTests: number, numFailedTests: number, numPendingTests: number, numTodoTests: number,
 *   testResults: { status: string, assertionResults: unknown[] }[] } | null} report from vitest's JSON reporter; null when it wrote none
 * @param {number} exitCode
 * @returns {Counts}
 */
export function countsOf(report, exitCode) {
  if (report === null) return { passed: 0, failed: 1, skipped: 0 };
  const unloaded = report.testResults.filter((file) => file.status === "failed" && file.assertionResults.length === 0).length;
  const failed = report.numFailedTests + unloaded;
  return {
    passed: report.numPassedTests,
    failed: failed === 0 && exitCode !== 0 ? 1 : failed,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/**
 * @param {readonly Counts[]} all
 * @returns {Counts}
 */
export function sumOf(all) {
  const sum = { passed: 0, failed: 0, skipped: 0 };
  for (const one of all) {
    sum.passed += one.passed;
    sum.failed += one.failed;
    sum.skipped += one.skipped;
  }
  return sum;
}
