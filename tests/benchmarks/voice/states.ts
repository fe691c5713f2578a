import type { Command } from '#shared/run/commands.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import type { RunState, Step } from '#shared/run/types.ts';
import { PHRASES } from '#shared/voice/phrases.ts';

/** Of an order with two pieces, none of which is there yet. */
const ORDER = {
  pieces: [
    { sku: 'A', count: 1 },
    { sku: 'B', count: 1 },
  ],
};

const at = (step: Step, slip = 'none', confirming: Command | null = null) =>
  commandsFor({
    ...{ step, slip, confirming, progress: [], parcels: [], parcel: 0, order: ORDER, gathered: {} },
  } as unknown as RunState);

/** The sets of commands that are possible together in a run, as phrases. */
export const STATES: readonly (readonly string[])[] = [
  at({ at: 'idle' }),
  at({ at: 'gather' }),
  at({ at: 'look-over', piece: 0 }),
  at({ at: 'fold', piece: 0, step: 0 }),
  at({ at: 'weigh' }),
  at({ at: 'decide', because: 'mismatch' }),
  ['weigh-again', 'make-lighter', 'pay-next-bracket', 'zero-scale', 'back', 'set-aside', 'repeat', 'help'] as const,
  at({ at: 'seal' }, 'printed'),
  at({ at: 'idle' }, 'none', 'set-aside'),
].map((commands) => commands.map((command) => PHRASES.en[command]));

export const ALL: readonly string[] = Object.values(PHRASES.en);

/** A state in which this may be said; each in turn. */
export function stateWith(phrase: string, turn: number): readonly string[] {
  const possible = STATES.filter((each) => each.includes(phrase));
  return possible[turn % possible.length] ?? ALL;
}
