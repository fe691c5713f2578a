import { optionsOf } from './options.ts';
import type { PracticeState } from './types.ts';
import type { Skill } from '#shared/people/rules.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import type { Command } from '#shared/run/commands.ts';

const ALWAYS: readonly Command[] = ['repeat', 'help'];

/** The commands possible now in practice, the main one first. "next" marks the next option, "confirm" chooses it. */
export function practiceCommands(state: PracticeState, skills: readonly Skill[]): readonly Command[] {
  const { screen } = state;
  if (screen.at === 'guided') return commandsFor(screen.run);
  if (screen.at === 'preparing') return ['back', ...ALWAYS];
  if (screen.at === 'skill' && screen.signing !== null) return ['confirm', 'cancel', ...ALWAYS];
  const options = optionsOf(state, skills);
  if (options.length === 0) return ['next', 'back', ...ALWAYS];
  return [...(state.marked === null ? (['next'] as const) : (['next', 'confirm'] as const)), 'back', ...ALWAYS];
}
