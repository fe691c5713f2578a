import type { Day } from './types.ts';

/** First and last day, both counted in; an absent one is open. */
export interface Dates {
  readonly from?: Day;
  readonly until?: Day;
}

/** Whether the day lies within. Days compare as text because they are written year first. */
export function inForce(dates: Dates, day: Day): boolean {
  return (dates.from === undefined || dates.from <= day) && (dates.until === undefined || day <= dates.until);
}
