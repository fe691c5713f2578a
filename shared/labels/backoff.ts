/**
 * How long to wait after a delivery failed: doubling from the first wait up to the longest, of which the second half is
 * left to chance, so that many parcels do not come back at once.
 * @param attempts deliveries so far, from 1
 * @param chance from 0 up to 1
 * @returns milliseconds
 */
export function waitAfter(
  attempts: number,
  {
    firstRetrySeconds,
    longestRetrySeconds,
  }: { readonly firstRetrySeconds: number; readonly longestRetrySeconds: number },
  chance: number,
): number {
  const whole = Math.min(longestRetrySeconds, firstRetrySeconds * 2 ** Math.min(attempts - 1, 40)) * 1000;
  return Math.round(whole / 2 + (whole / 2) * chance);
}
