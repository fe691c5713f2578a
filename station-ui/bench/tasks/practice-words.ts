import { NOTHING_WRONG } from '#shared/practice/options.ts';
import { PROBLEMS } from '#shared/people/rules.ts';
import type { Language } from '#shared/words/language.ts';
import type { PracticeOption, PracticeTask } from '#shared/wire/practice.ts';
import { practiceWords } from '../../i18n/practice.ts';

/** The practice screen in one line. */
export function practiceHeading(task: PracticeTask, language: Language): string {
  const said = practiceWords[language];
  switch (task.screen) {
    case 'menu':
      return said.menu;
    case 'skill':
      return task.skill?.name[language] ?? said.practice;
    case 'preparing':
      return task.exercise === null ? said.practice : said.exercises[task.exercise];
    case 'choose':
      return said.chooseTask;
    case 'spot':
      return said.spotTask;
    case 'progress':
      return task.progress === null || task.progress.id === ''
        ? said.options.progress
        : said.progress.title(task.progress.name);
  }
}

/** What an option is called. */
export function optionName({ id, name }: PracticeOption, language: Language): string {
  if (name !== null) return name[language];
  const said = practiceWords[language];
  const problem = [...PROBLEMS, NOTHING_WRONG].find((each) => each === id);
  if (problem !== undefined) return said.problems[problem as keyof typeof said.problems];
  if (id in said.exercises) return said.exercises[id as keyof typeof said.exercises];
  return said.options[id as keyof typeof said.options];
}

/** For screen readers: where practice stands, which option is marked, and whether the answer was right. */
export function practiceInWords(task: PracticeTask, language: Language): string {
  const said = practiceWords[language];
  const heading = practiceHeading(task, language);
  if (task.answer !== null) return `${heading} ${task.answer.right ? said.right : said.wrong}`;
  const marked = task.marked === null ? undefined : task.options[task.marked];
  if (marked === undefined) return heading;
  return `${optionName(marked, language)}, ${said.marks((task.marked ?? 0) + 1, task.options.length)}`;
}
