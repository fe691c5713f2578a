import { EXERCISES, type Exercise, type Mark } from './types.ts';
import type { Skill } from '#shared/people/rules.ts';

/** Right answers in a row, of each exercise of a skill, newest last. */
export function inARow(marks: readonly Mark[], skill: string, exercise: Exercise): number {
  const own = marks.filter((mark) => mark.skill === skill && mark.exercise === exercise);
  const lastWrong = own.findLastIndex((mark) => !mark.right);
  return own.length - 1 - lastWrong;
}

export interface SkillStanding {
  readonly skill: Skill;
  readonly exercises: readonly { readonly exercise: Exercise; readonly inARow: number; readonly needed: number }[];
  /** everything that it asks for was practised */
  readonly ready: boolean;
}

export function skillStanding(skill: Skill, marks: readonly Mark[]): SkillStanding {
  const exercises = EXERCISES.filter((exercise) => skill.practise[exercise] > 0).map((exercise) => ({
    exercise,
    inARow: inARow(marks, skill.id, exercise),
    needed: skill.practise[exercise],
  }));
  return { skill, exercises, ready: exercises.every((each) => each.inARow >= each.needed) };
}

/** The skills that an order with these kinds asks for and a person lacks. */
export function skillsLacking(
  skills: readonly Skill[],
  kinds: readonly string[],
  signed: ReadonlySet<string>,
): readonly Skill[] {
  return skills.filter((skill) => !signed.has(skill.id) && skill.kinds.some((kind) => kinds.includes(kind)));
}
