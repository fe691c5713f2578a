import { describe, expect, it } from 'vitest';
import { incomingText, problemLine } from '#shared/imports/incoming-text.ts';

const REFUSED = {
  name: 'orders.csv',
  state: 'refused',
  problems: [
    problemLine({ line: 4, column: 'skus', expected: 'one or more SKUs', found: 'an empty cell' }),
    problemLine({ line: 7, column: null, expected: '3 cells, as the header has', found: '5 cells' }),
  ],
  more: 0,
  when: '2026-11-25 16:40',
} as const;

describe('the text beside a file that was not stored', () => {
  it('names the file, when it was refused, and each place with what was expected there and what was found', () => {
    expect(incomingText(REFUSED, 'en').split('\n')).toEqual([
      'orders.csv was refused on 2026-11-25 16:40. Nothing of it was stored.',
      '',
      'line 4, column skus: expected one or more SKUs; found an empty cell',
      'line 7: expected 3 cells, as the header has; found 5 cells',
      '',
      expect.stringMatching(/^Mend the file .*page Import/),
      '',
    ]);
  });

  it('says how many problems are not listed', () => {
    expect(incomingText({ ...REFUSED, more: 12 }, 'en').split('\n')[4]).toBe('and 12 more');
    expect(incomingText({ ...REFUSED, more: 12 }, 'es').split('\n')[4]).toBe('y 12 más');
  });

  it('is in Spanish with its problems, and keeps one that has no Spanish', () => {
    const lines = incomingText({ ...REFUSED, problems: [...REFUSED.problems, 'no rule for this'] }, 'es').split('\n');
    expect(lines[0]).toBe('orders.csv se rechazó el 2026-11-25 16:40. No se guardó nada de él.');
    expect(lines[2]).toBe('línea 4, columna skus: se esperaba uno o más SKU; hay una celda vacía');
    expect(lines[4]).toBe('no rule for this');
  });

  it('tells a file that was read before from one that is wrong', () => {
    const twice = { ...REFUSED, state: 'twice', problems: [] } as const;
    expect(incomingText(twice, 'en')).toMatch(
      /^orders\.csv was not read on 2026-11-25 16:40: .*\n+Nothing is done twice/,
    );
    expect(incomingText(twice, 'es')).toMatch(/^orders\.csv no se leyó el 2026-11-25 16:40: .*\n+Aquí nada se hace/);
  });
});
