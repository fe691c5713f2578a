import type { PracticeState } from './types.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import type { Command } from '#shared/run/commands.ts';

const ALWAYS: readonly Command[] = ['repeat', 'help'];

/** The commands possible now in practice, the main one first. "next" marks the next option, "confirm" chooses it. */
export function practiceCommands(state: PracticeState): readonly Command[] {
  const { screen } = state;
  if (screen.at === 'guided') return commandsFor(screen.run);
  if (screen.at === 'preparing') return ['back', ...ALWAYS];
  if (screen.at === 'skill' && screen.signing !== null) return ['confirm', 'cancel', ...ALWAYS];
  return [...(state.marked === null ? (['next'] as const) : (['next', 'confirm'] as const)), 'back', ...ALWAYS];
}
