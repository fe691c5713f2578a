const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/** Where somebody signs in: the office in one browser, or a bench at its paired device. */
export const PLACES = ['office', 'bench'] as const;
export type Place = (typeof PLACES)[number];

/** How long nothing may be done before a session ends, and how long it lasts at most. */
const SESSIONS: Readonly<Record<Place, { readonly idle: number; readonly longest: number }>> = {
  office: { idle: 30 * MINUTE, longest: 12 * HOUR },
  // Signing on again is one scan of a badge.
  bench: { idle: 60 * MINUTE, longest: 12 * HOUR },
};

/** When a session ends by itself, in milliseconds since the epoch. */
export function sessionEnds(place: Place, madeAt: number, seenAt: number): number {
  const { idle, longest } = SESSIONS[place];
  return Math.min(seenAt + idle, madeAt + longest);
}

/** A code to pair a device, or to set the owner's PIN, is good for so long, and for so many wrong ones in between. */
export const CODE_LASTS_MS: Readonly<Record<'pair' | 'set-up', number>> = { pair: 10 * MINUTE, 'set-up': 24 * HOUR };
export const CODE_TRIES = 10;
export const CODE_DIGITS = 8;

/** So many wrong tries cost nothing but themselves. */
const FREE_TRIES = 4;
const FIRST_WAIT_MS = 30_000;
const LONGEST_WAIT_MS = HOUR;
/** After so long without a wrong try all are forgotten. */
export const FORGOTTEN_AFTER_MS = 24 * HOUR;

/** How long to wait after so many wrong tries in a row: nothing, then 30 s, twice as long each time, an hour at most. */
export function waitAfter(failures: number): number {
  if (failures <= FREE_TRIES) return 0;
  return Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (failures - FREE_TRIES - 1));
}
