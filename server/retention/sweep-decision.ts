const HOUR_MS = 3_600_000;
/** What is kept for days need not be looked through more often. */
const REST_MS = 20 * HOUR_MS;
/** A clock that has gone on by more than this since the last time has jumped, or the computer was off. */
const BELIEVED_MS = 72 * HOUR_MS;

export interface SweepMemory {
  /** by the clock, when it was last looked through; null: never */
  readonly at: number | null;
  /** since when a clock that has jumped is watched */
  readonly heldAt: number | null;
}

export interface SweepDecision {
  readonly do: 'sweep' | 'rest' | 'hold';
  readonly memory: SweepMemory;
}

/**
 * Whether what has been kept its time may be removed now. A clock that has jumped, either way, is believed only when it still
 * goes on a day later: a wrong date must not remove everything, and a computer that was off for weeks loses a day.
 */
export function decideSweep({ at, heldAt }: SweepMemory, now: number): SweepDecision {
  const gone = at === null ? null : now - at;
  if (gone !== null && gone >= 0 && gone < REST_MS) return { do: 'rest', memory: { at, heldAt: null } };
  const believed = gone !== null && gone >= REST_MS && gone <= BELIEVED_MS;
  const watched = heldAt === null ? null : now - heldAt;
  const proven = watched !== null && watched >= REST_MS && watched <= BELIEVED_MS;
  if (believed || proven) return { do: 'sweep', memory: { at: now, heldAt: null } };
  const goesOn = watched !== null && watched >= 0 && watched < REST_MS;
  return { do: 'hold', memory: { at, heldAt: goesOn ? heldAt : now } };
}
