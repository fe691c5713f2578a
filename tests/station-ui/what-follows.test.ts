import { render } from 'lit';
import { describe, expect, it } from 'vitest';
import { SET_ASIDE_REASONS } from '#shared/run/types.ts';
import type { BenchView, LiveScale } from '#shared/wire/views.ts';
import '#station-ui/bench/tasks/all.ts';
import { taskElement } from '#station-ui/bench/tasks/all.ts';
import { confirmHow } from '#station-ui/i18n/confirm-how.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { loadWords } from '#station-ui/i18n/loads.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { benchView, oz, reading } from './fixtures.ts';
import { text } from './look.ts';

async function shown(view: BenchView, live: LiveScale | null = null): Promise<string> {
  const place = document.createElement('div');
  document.body.append(place);
  render(taskElement({ view, live, words: wordsOf(view.language), language: view.language }), place);
  await (place.firstElementChild as unknown as { readonly updateComplete: Promise<boolean> }).updateComplete;
  const said = text(place);
  place.remove();
  return said;
}

describe.each(LANGUAGES)('%s', (language) => {
  const words = wordsOf(language);
  const how = confirmHow[language];
  const [reason] = SET_ASIDE_REASONS;

  it.each([
    ['set-aside', how.aside],
    ['release', how.release],
    ['print-again', how.printAgain],
    ['pay-next-bracket', how.final],
  ] as const)('the question of %s says what follows, and only what is final is called so', async (command, said) => {
    const confirming = { command, since: 0, ...(command === 'set-aside' ? { reason } : {}) };
    const all = await shown(benchView('seal', language, { confirming }));
    expect(all).toContain(said);
    expect(all.includes(how.final)).toBe(command === 'pay-next-bracket');
  });

  it('a parcel is not to be closed before its slip came out', async () => {
    const paid = benchView('seal', language, { slip: 'printed' });
    const clear = { ...paid, task: { ...paid.task, weighed: reading('15.1').mass } } as BenchView;
    expect(await shown(clear)).toContain(words.bench.sealHow);
    // The one that was printed first says too little and warns of what was decided.
    expect(await shown(paid)).toContain(loadWords[language].newSlip);
    const failed = await shown(benchView('seal', language, { slip: 'failed' }));
    expect(failed).toContain(words.bench.sealNoSlip);
    expect(failed).not.toContain(words.bench.sealHow);
  });

  it('an empty pan whose zero has moved is to be zeroed, not to be left alone', async () => {
    const live = (mass: string): LiveScale => ({
      reading: reading(mass),
      needsEmptying: false,
      needsZeroing: oz('0.3'),
      discarded: 0,
    });
    const empty = await shown(benchView('weigh', language), live('0.3'));
    expect(empty).toContain(words.scale.zeroFirst);
    expect(empty).not.toContain(words.scale.reading);
    expect(await shown(benchView('weigh', language), live('12.3'))).toContain(words.scale.reading);
  });

  it('what is said of a slip that did not come out names the command by its own words', () => {
    const command = words.commands['print-again'];
    expect(words.notices['print-failed']({})).toContain(command);
    expect(words.bench.sealNoSlip).toContain(command);
  });
});
