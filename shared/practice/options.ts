import { PROBLEMS, type Skill } from '#shared/people/rules.ts';
import { EXERCISES, type Exercise, type PracticeState } from './types.ts';

/** Where nothing is wrong. */
export const NOTHING_WRONG = 'nothing-wrong';

/** The ids of what can be chosen on the screen, in its order; empty where nothing can. */
export function optionsOf(state: PracticeState, skills: readonly Skill[]): readonly string[] {
  const { screen } = state;
  switch (screen.at) {
    case 'menu':
      return [...skills.map((skill) => `skill:${skill.id}`), 'progress', 'leave'];
    case 'skill': {
      const skill = skills.find((each) => each.id === screen.skill);
      const exercises = EXERCISES.filter((exercise) => (skill?.practise[exercise] ?? 0) > 0);
      return [...exercises, 'record', 'menu'];
    }
    case 'round':
      if (screen.answer !== null) return [];
      return screen.round.exercise === 'choose'
        ? screen.round.options.map((option) => option.container)
        : [...PROBLEMS, NOTHING_WRONG];
    case 'off':
    case 'preparing':
    case 'guided':
    case 'progress':
      return [];
  }
}

export function exerciseOf(option: string): Exercise | null {
  return EXERCISES.find((each) => each === option) ?? null;
}
