/** Longer between two inputs is no packing: somebody came, the telephone rang. */
const LONGEST_STEP_MS = 180_000;

/** Worked time from the times of what was done one after the other, in ms; what took longer than a step may counts as one. */
export function workedMs(times: readonly number[], longest = LONGEST_STEP_MS): number {
  return times.slice(1).reduce((sum, at, index) => sum + Math.max(0, Math.min(longest, at - (times[index] ?? at))), 0);
}
