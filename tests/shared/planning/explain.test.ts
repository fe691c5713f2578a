import { describe, expect, it } from 'vitest';
import { bySku, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import { rejectionWords, savingOf, whyWords } from '#shared/planning/explain.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { REJECTION_CODES } from '#shared/planning/types.ts';
import { LANGUAGES } from '#shared/words/language.ts';

const pieces = [piece('T1', 't-shirt'), piece('H1', 'shoes')];
const plan = (skus: readonly string[]) => {
  const chosen = pieces.filter(({ sku }) => skus.includes(sku));
  return planOrder({ order: orderOf(chosen), pieces: bySku(chosen), shop: smallShop(), day: DAY });
};

describe('rejectionWords', () => {
  it('has a sentence for every code of its own in every language', () => {
    for (const code of REJECTION_CODES) {
      for (const language of LANGUAGES) {
        const words = rejectionWords({ container: 'x', code, values: { by: '$1.00', limit: 'width' } }, language);
        expect(words).toMatch(/^\p{Lu}/u);
        expect(words).not.toContain(code);
      }
    }
  });

  it('puts the values into the sentence', () => {
    const rejection = { container: 'x', code: 'too-tight', values: { by: '0.60 in', limit: 'length' } };
    expect(rejectionWords(rejection, 'en')).toBe('Too tight: 0.60 in short in length');
    expect(rejectionWords(rejection, 'es')).toBe('Demasiado justo: faltan 0.60 in de largo');
  });

  it('leaves no hole in a sentence of a real plan', () => {
    for (const skus of [['T1'], ['H1'], ['T1', 'H1']]) {
      for (const rejection of plan(skus).whyNot) {
        for (const language of LANGUAGES) expect(rejectionWords(rejection, language)).not.toMatch(/[{}…·]|undefined/);
      }
    }
  });
});

describe('whyWords', () => {
  it('says what the container saves against the next', () => {
    const chosen = plan(['T1']);
    const saving = savingOf(chosen);
    expect(saving?.over.container).toBe('pouch-middle');
    expect(whyWords(chosen, 'en')).toBe(`Saves $0.0${String(saving?.minor)} against pouch-middle.`);
    expect(whyWords(chosen, 'es')).toBe(`Ahorra $0.0${String(saving?.minor)} frente a pouch-middle.`);
  });

  it('says so when there is no other, and when the plan is not proven', () => {
    const only = { ...plan(['T1']), alternatives: [] };
    expect(whyWords(only, 'en')).toBe('The only container that will do.');
    expect(whyWords({ ...only, proven: false, lowerBound: 450.7 }, 'en')).toContain('at least $4.50');
  });
});
