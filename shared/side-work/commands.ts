import { choicesOf, type SideState } from './types.ts';
import type { Command } from '#shared/run/commands.ts';

const ALWAYS: readonly Command[] = ['repeat', 'help'];

/** The commands possible now beside packing, the main one first. In a list "next" marks, "confirm" chooses. */
export function sideCommands(state: SideState): readonly Command[] {
  if (state.confirming !== null) return ['confirm', 'cancel', ...ALWAYS];
  const { screen } = state;
  switch (screen.at) {
    case 'off':
      return [];
    case 'aside':
    case 'containers': {
      if (choicesOf(state).length === 0) return ['back', ...ALWAYS];
      const choose: readonly Command[] = state.marked === null ? ['next'] : ['next', 'confirm'];
      return [...choose, 'back', ...(screen.at === 'aside' ? (['print-list'] as const) : []), ...ALWAYS];
    }
    case 'preparing':
      return ['back', ...ALWAYS];
    case 'walk':
      return walkCommands(screen.step.at, screen.piece);
    case 'folded':
      return ['next', 'print-list', ...ALWAYS];
  }
}

function walkCommands(step: 'fetch' | 'look-over' | 'fold' | 'lay', piece: number): readonly Command[] {
  const rest: readonly Command[] = ['release', 'print-list', ...ALWAYS];
  switch (step) {
    // What lies in its basket is not taken out again.
    case 'fetch':
      return ['next', ...(piece === 0 ? (['back'] as const) : []), 'item-missing', 'set-aside', ...rest];
    case 'look-over':
      return ['next', 'back', 'item-damaged', 'set-aside', ...rest];
    case 'fold':
    case 'lay':
      return ['next', 'back', 'set-aside', ...rest];
  }
}
