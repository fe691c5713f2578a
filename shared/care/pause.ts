const MINUTE_MS = 60_000;

/** A pause that is due: for how long it was worked, and how long a pause should at least be. Minutes. */
export interface PauseDue {
  readonly worked: number;
  readonly rest: number;
}

/** When the work at a bench began that has gone on since without a rest, and when something was last done; epoch ms. */
export interface Stretch {
  readonly since: number;
  readonly last: number;
}

/** The stretch of work, with what was done since; times in order. Nothing done for as long as a pause lasts was one. */
export function workedOn(
  before: Stretch | null,
  times: readonly number[],
  { restMinutes }: { readonly restMinutes: number },
): Stretch | null {
  return times.reduce<Stretch | null>(
    (stretch, at) =>
      stretch === null || at - stretch.last >= restMinutes * MINUTE_MS
        ? { since: at, last: at }
        : { since: stretch.since, last: at },
    before,
  );
}

/** Whether a pause is due after a stretch of work. */
export function pauseDue(
  stretch: Stretch | null,
  now: number,
  rule: { readonly afterMinutes: number; readonly restMinutes: number } | null,
): PauseDue | null {
  if (rule === null || stretch === null || now - stretch.last >= rule.restMinutes * MINUTE_MS) return null;
  const { since } = stretch;
  const worked = Math.floor((now - since) / MINUTE_MS);
  return worked >= rule.afterMinutes ? { worked, rest: rule.restMinutes } : null;
}
