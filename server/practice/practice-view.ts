import { nameOf, progressView, skillsView } from '#server/people/progress-view.ts';
import type { Store } from '#server/store/open.ts';
import { peopleRules, type Skill } from '#shared/people/rules.ts';
import { NOTHING_WRONG, optionsOf } from '#shared/practice/options.ts';
import type { PracticeState, Round } from '#shared/practice/types.ts';
import type { Command } from '#shared/run/commands.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { BenchView } from '#shared/wire/views.ts';
import type { Localised } from '#shared/words/language.ts';
import type { SkillView } from '#shared/wire/people.ts';
import type { PracticeOption, PracticeTask } from '#shared/wire/practice.ts';

const NOBODY = { id: '', name: '' };

/** What a bench shows in practice. */
export async function practiceView(
  view: BenchView,
  state: PracticeState,
  parts: {
    readonly store: Store;
    readonly shop: Shop;
    readonly commands: readonly Command[];
    readonly now: number;
  },
): Promise<BenchView> {
  const { store, shop, commands, now } = parts;
  const { skills } = peopleRules(shop);
  const task = await practiceTask(state, store, shop, skills, now);
  const skill = 'skill' in state.screen ? skillNamed(skills, state.screen.skill) : null;
  const shown = { ...view, commands, practice: { skill } };
  return task === null ? shown : { ...shown, task, repeats: state.repeats };
}

/** The middle of the screen in practice; null in a guided run, whose screens are a run's own. */
async function practiceTask(
  state: PracticeState,
  store: Store,
  shop: Shop,
  skills: readonly Skill[],
  now: number,
): Promise<PracticeTask | null> {
  const { screen, person } = state;
  if (screen.at === 'guided' || screen.at === 'off') return null;
  const views = await skillsView(store, shop, person ?? '');
  const skill = 'skill' in screen ? (views.find(({ id }) => id === screen.skill) ?? null) : null;
  const round = screen.at === 'round' ? screen.round : null;
  const exercise = screen.at === 'preparing' ? screen.exercise : (round?.exercise ?? null);
  const needed = skill?.exercises.find((each) => each.exercise === exercise)?.needed ?? 0;
  return {
    at: 'practice',
    screen: screen.at === 'round' ? screen.round.exercise : screen.at,
    person: person === null ? null : nameOf(shop, person),
    options: options(state, skills, views),
    marked: state.marked,
    notice: state.notice,
    exercise,
    skill,
    skills: screen.at === 'menu' ? views : [],
    signing: screen.at === 'skill' && screen.signing !== null ? nameOf(shop, screen.signing.by) : null,
    choose: round?.exercise === 'choose' ? roundWithoutOptions(round) : null,
    scene: round?.exercise === 'spot' ? round.scene : null,
    answer: screen.at === 'round' && screen.answer !== null ? answerOf(screen.round, screen.answer) : null,
    score: { asked: state.asked, right: state.right, needed },
    progress:
      screen.at === 'progress'
        ? await progressView(store, shop, shop.staff.find(({ id }) => id === person) ?? NOBODY, now)
        : null,
  };
}

function roundWithoutOptions({
  options: _,
  exercise: __,
  ...round
}: Extract<Round, { exercise: 'choose' }>): PracticeTask['choose'] {
  return round;
}

function isRight(round: Round, option: string): boolean {
  return round.exercise === 'choose'
    ? round.options.some((each) => each.container === option && each.right)
    : option === (round.problem ?? NOTHING_WRONG);
}

function answerOf(round: Round, chosen: string): NonNullable<PracticeTask['answer']> {
  return { right: isRight(round, chosen), chosen, problem: round.exercise === 'spot' ? round.problem : null };
}

function options(
  state: PracticeState,
  skills: readonly Skill[],
  views: readonly SkillView[],
): readonly PracticeOption[] {
  const { screen } = state;
  // What was asked stays on the screen beside its answer.
  const answered = screen.at === 'round' ? screen.answer : null;
  const open: PracticeState = screen.at === 'round' ? { ...state, screen: { ...screen, answer: null } } : state;
  return optionsOf(open, skills).map((id): PracticeOption => {
    const container =
      screen.at === 'round' && screen.round.exercise === 'choose'
        ? screen.round.options.find((each) => each.container === id)
        : undefined;
    const skill = id.startsWith('skill:') ? views.find((each) => `skill:${each.id}` === id) : undefined;
    const right = screen.at === 'round' && isRight(screen.round, id);
    return {
      id,
      name: container?.name ?? skill?.name ?? null,
      mark: answered === null ? 'plain' : right ? 'right' : id === answered ? 'wrong' : 'plain',
      why: answered === null ? null : (container?.why ?? null),
    };
  });
}

function skillNamed(skills: readonly Skill[], id: string): Localised | null {
  return skills.find((skill) => skill.id === id)?.name ?? null;
}
