import { expect, it } from 'vitest';
import type { BenchLabel } from '#shared/wire/label.ts';
import '#station-ui/bench/label-state.ts';
import type { LabelState } from '#station-ui/bench/label-state.ts';
import '#station-ui/office/labels.ts';
import { benchLabelWords } from '#station-ui/i18n/labels.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { one, text } from './look.ts';

const COMING: BenchLabel = {
  key: '4101-run-1',
  state: 'coming',
  number: null,
  paper: 'none',
  paperWhy: '',
  document: null,
  missing: [],
};

async function shown(change: Partial<BenchLabel>, language: 'en' | 'es'): Promise<LabelState> {
  const element = document.createElement('bf-label-state');
  Object.assign(element, { label: { ...COMING, ...change }, words: wordsOf(language), language });
  document.body.append(element);
  await element.updateComplete;
  return element;
}

it.each(['en', 'es'] as const)(
  '%s: the bench says what it waits for, and without an answer how to go on',
  async (language) => {
    const said = benchLabelWords[language];
    const { commands } = wordsOf(language);
    const coming = await shown({}, language);
    expect(text(one(coming, '[data-label=coming]'))).toBe(said.states.coming);
    for (const state of ['late', 'given-up', 'held'] as const) {
      const missing = [{ sku: 'A', title: 'Jeans', missing: ['value', 'origin'] as const }];
      const element = await shown({ state, missing }, language);
      expect(text(one(element, '[data-go-on]'))).toContain(commands.next);
      expect(text(one(element, '[data-go-on]'))).toContain(commands['enter-number']);
      if (state === 'held') expect(element.shadowRoot?.textContent).toContain(said.facts.origin);
    }
    document.body.replaceChildren();
  },
);

it.each(['en', 'es'] as const)('%s: a bought label shows its number, its paper, and its document', async (language) => {
  const said = benchLabelWords[language];
  const bought = { state: 'here', number: '9200259495967060512133' } as const;
  const printed = await shown({ ...bought, paper: 'unknown', document: 'zpl' }, language);
  expect(text(one(printed, '[data-label=here]'))).toContain(said.paper.unknown);
  expect(text(one(printed, '[data-number]'))).toBe('9200 2594 9596 7060 5121 33');
  expect(one(printed, '[data-print-label]')).not.toBeNull();
  expect(one(printed, '[data-open-label]')).toBeNull();
  const onScreen = await shown({ ...bought, document: 'pdf' }, language);
  expect(text(one(onScreen, '[data-label=here]'))).toContain(said.onScreen);
  expect(one(onScreen, '[data-open-label]')?.getAttribute('href')).toBe('/api/labels/document?key=4101-run-1');
  document.body.replaceChildren();
});
