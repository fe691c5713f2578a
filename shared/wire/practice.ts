import type { ProgressView, SkillView } from './people.ts';
import type { Problem } from '#shared/people/rules.ts';
import type { ChooseRound, Exercise, PracticeNotice, Scene } from '#shared/practice/types.ts';
import type { Localised } from '#shared/words/language.ts';

/** Something that can be chosen in practice: by touch, by a scan where it has a code, or marked and confirmed. */
export interface PracticeOption {
  readonly id: string;
  /** null: the screen has words for its id */
  readonly name: Localised | null;
  readonly mark: 'plain' | 'right' | 'wrong';
  /** after the answer: why this one is right, or not */
  readonly why: Localised | null;
}

/** What the middle of the screen shows in practice, but for guided runs, which look as a run does. */
export interface PracticeTask {
  readonly at: 'practice';
  readonly screen: 'menu' | 'skill' | 'preparing' | 'choose' | 'spot' | 'progress';
  readonly person: string | null;
  readonly options: readonly PracticeOption[];
  /** index of the option that "confirm" chooses */
  readonly marked: number | null;
  readonly notice: PracticeNotice | null;
  readonly exercise: Exercise | null;
  readonly skill: SkillView | null;
  readonly skills: readonly SkillView[];
  /** who is about to sign the skill off */
  readonly signing: string | null;
  readonly choose: Omit<ChooseRound, 'options' | 'exercise'> | null;
  readonly scene: Scene | null;
  /** null until it is answered */
  readonly answer: { readonly right: boolean; readonly chosen: string; readonly problem: Problem | null } | null;
  readonly score: { readonly asked: number; readonly right: number; readonly needed: number };
  readonly progress: ProgressView | null;
}
