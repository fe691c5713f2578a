import type { ScanMeaning } from './types.ts';

/** One code as one of a bench's readers read it: the scanner on its line, a keyboard scanner or a camera of a screen. */
export interface Reading {
  /** what it means, see {@link meaningKey} */
  readonly what: string;
  readonly reader: string;
  /** when it was read, in milliseconds */
  readonly at: number;
  /** under which a screen may deliver it again */
  readonly id?: string;
}

/** A reading that was acted on, and those of other readers that were the same code in the same moment. */
interface Acted extends Reading {
  readonly seconds: readonly { readonly reader: string; readonly id?: string }[];
}

export type ReadersState = readonly Acted[];

/** A camera wants several pictures of what a scanner reads at once. */
const SAME_MOMENT_MS = 1500;
/** A screen delivers again what was not acknowledged; that many are told apart. */
const REMEMBERED = 32;

/**
 * Tells one code that two readers read in the same moment from a code that was meant twice. For each reading that was
 * acted on, every other reader has one that is the same; its next one is meant. What one reader reads twice by itself is
 * its own affair (see repeat-guard.ts), and the same delivery twice is told by its id.
 */
export function readOnce(
  state: ReadersState,
  reading: Reading,
  withinMs = SAME_MOMENT_MS,
): { readonly state: ReadersState; readonly act: boolean } {
  const { what, reader, at, id } = reading;
  if (id !== undefined) {
    if (state.some((each) => each.id === id)) return { state, act: true };
    if (state.some(({ seconds }) => seconds.some((each) => each.id === id))) return { state, act: false };
  }
  const index = state.findLastIndex(
    (each) =>
      each.what === what &&
      each.reader !== reader &&
      Math.abs(at - each.at) <= withinMs &&
      !each.seconds.some((second) => second.reader === reader),
  );
  const first = state[index];
  if (first === undefined) return { state: [...state, { ...reading, seconds: [] }].slice(-REMEMBERED), act: true };
  const second = id === undefined ? { reader } : { reader, id };
  return { state: state.with(index, { ...first, seconds: [...first.seconds, second] }), act: false };
}

/** Forgets a reading of which nothing came, as when it could not be stored: the next one, by whatever reader, is meant. */
export function unread(state: ReadersState, { what, reader, at }: Reading): ReadersState {
  return state.filter((each) => each.what !== what || each.reader !== reader || each.at !== at);
}

/** The same for every form in which readers tell a code: with or without its symbology, short or long. */
export function meaningKey(meaning: ScanMeaning): string {
  const { text, ...what } = meaning;
  return JSON.stringify(meaning.means === 'unknown' ? { text } : what);
}
