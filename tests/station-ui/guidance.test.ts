import { afterEach, expect, it } from 'vitest';
import type { Command } from '#shared/run/commands.ts';
import '#station-ui/components/guidance.ts';
import '#station-ui/bench/tasks/fold.ts';
import '#station-ui/bench/tasks/fill.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { guidanceWords } from '#station-ui/i18n/guidance.ts';
import { BLOCK, TASKS, benchView } from './fixtures.ts';
import { all, one, text } from './look.ts';

afterEach(() => {
  document.body.replaceChildren();
});

it.each(['en', 'es'] as const)(
  'in %s says the level and asks for more or less where there is any',
  async (language) => {
    const element = document.createElement('bf-guidance');
    Object.assign(element, { level: 'brief', commands: ['tell-more'], words: wordsOf(language), language });
    const asked: Command[] = [];
    element.addEventListener('bf-asked', (event) =>
      asked.push((event as CustomEvent<{ command: Command }>).detail.command),
    );
    document.body.append(element);
    await element.updateComplete;
    expect(text(element)).toContain(guidanceWords[language].levels.brief);
    expect(all(element, '.sewn')).toHaveLength(2);
    const [less, more] = all(element, 'button') as HTMLButtonElement[];
    expect(less?.disabled).toBe(true);
    more?.click();
    expect(asked).toEqual(['tell-more']);
  },
);

it('the key step is named by its fold and says which it is; unlike the usual, it says so', async () => {
  const task = { ...TASKS.fold, told: 'key', usual: { en: 'In half', es: 'Por la mitad' } } as const;
  const element = document.createElement('bf-task-fold');
  Object.assign(element, { view: benchView('fold'), task, words: wordsOf('en'), language: 'en' });
  document.body.append(element);
  await element.updateComplete;
  const shown = text(element);
  expect(shown).toContain('Fold: shirt, in thirds');
  expect(shown).toMatch(/key step of 6 ?: Fold the right third over/);
  expect(shown).toContain('not as usual (In half)');
});

it('what was folded as usual is named at the filling, with its size', async () => {
  const task = { ...TASKS.fill, asUsual: [{ piece: 'work shirt', recipe: TASKS.fold.recipe, block: BLOCK }] };
  const element = document.createElement('bf-task-fill');
  Object.assign(element, { view: benchView('fill'), task, words: wordsOf('es'), language: 'es' });
  document.body.append(element);
  await element.updateComplete;
  expect(text(one(element, '[data-as-usual]'))).toMatch(/work shirt ?, camisa, en tercios ?, 9 × 10½ × 1¼ in/);
});
