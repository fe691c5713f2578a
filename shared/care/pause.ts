const MINUTE_MS = 60_000;

/** A pause that is due: for how long it was worked, and how long a pause should at least be. Minutes. */
export interface PauseDue {
  readonly worked: number;
  readonly rest: number;
}

/**
 * Whether a pause is due, from the times of what was done at a bench, in order, epoch ms. Nothing done for as long as a pause
 * lasts was one.
 */
export function pauseDue(
  times: readonly number[],
  now: number,
  rule: { readonly afterMinutes: number; readonly restMinutes: number } | null,
): PauseDue | null {
  const last = times.at(-1);
  if (rule === null || last === undefined) return null;
  const rest = rule.restMinutes * MINUTE_MS;
  if (now - last >= rest) return null;
  let since = last;
  for (let index = times.length - 2; index >= 0; index--) {
    const earlier = times[index] ?? since;
    if (since - earlier >= rest) break;
    since = earlier;
  }
  const worked = Math.floor((now - since) / MINUTE_MS);
  return worked >= rule.afterMinutes ? { worked, rest: rule.restMinutes } : null;
}
