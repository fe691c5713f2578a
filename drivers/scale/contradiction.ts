import type { Mass } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';

/** So many returns to the value before the last one, each at rest, are no load that was moved. */
const RETURNS = 4;
/** How far apart the two values are at least, in divisions: at the edge of a division a display goes to and fro. */
const APART = 4;
/** No hand puts a load on and takes it off, at rest each time, this often in milliseconds. */
const QUICKER_THAN_A_HAND_MS = 1000;
/** The line is believed again once no value has returned for this long, in milliseconds. */
const BELIEVED_AFTER_MS = 2000;

/** What was shown at rest lately, as far as it tells one scale from two on a line. */
export interface Contradiction {
  /** the last two different masses at rest, the older first */
  readonly shown: readonly Mass[];
  readonly returns: number;
  /** when a value returned last; null before the first */
  readonly returnedAt: number | null;
}

export const NO_CONTRADICTION: Contradiction = { shown: [], returns: 0, returnedAt: null };

/**
 * Takes the next reading. A load is put on once and taken off once; masses at rest that go to and fro between the same
 * two values again and again come from two scales whose frames mix on one line.
 */
export function contradiction(
  state: Contradiction,
  reading: Reading,
): { readonly state: Contradiction; readonly contradicts: boolean } {
  const next = reading.condition === 'ok' && reading.stability !== 'moving' ? withReading(state, reading) : state;
  const contradicts =
    next.returns >= RETURNS && next.returnedAt !== null && reading.at - next.returnedAt < BELIEVED_AFTER_MS;
  return { state: next.returns >= RETURNS && !contradicts ? NO_CONTRADICTION : next, contradicts };
}

function withReading(state: Contradiction, { mass, division, at }: Reading): Contradiction {
  const [older, newer] = state.shown.length === 2 ? state.shown : [undefined, state.shown[0]];
  const same = (other: Mass | undefined): boolean => other !== undefined && Math.abs(other - mass) <= division;
  if (newer === undefined) return { ...state, shown: [mass] };
  if (same(newer)) return state;
  const far = Math.abs(mass - newer) > APART * division;
  if (!far || !same(older)) return { shown: [newer, mass], returns: 0, returnedAt: null };
  const quick = state.returnedAt === null || at - state.returnedAt <= QUICKER_THAN_A_HAND_MS;
  return { shown: [newer, mass], returns: quick ? state.returns + 1 : 1, returnedAt: at };
}
