/** Where the server reads the time; tests put their own in. */
export interface Clock {
  /** milliseconds since the epoch */
  now(): number;
}

export const systemClock: Clock = { now: () => Date.now() };
