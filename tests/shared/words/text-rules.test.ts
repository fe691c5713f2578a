import { describe, expect, it } from 'vitest';
import { translator } from '#shared/words/text-rules.ts';

const spanish = translator([
  ['row {}: {}', 'fila {}: {}'],
  ['expected {}, found {}', 'se esperaba {} y hay {}'],
  ['a number', 'un número'],
  ['nothing (at all)', 'nada de nada'],
  ['nothing {}', 'nada {}'],
  ['Is it *new*?', '¿Es nuevo?'],
  ['{} of {}', '{} de {}'],
]);

describe('texts put into another language by rules', () => {
  it('are the other language’s, with what differs in the same order', () => {
    expect(spanish('a number')).toBe('un número');
    expect(spanish('row 12: "x"')).toBe('fila 12: "x"');
    expect(spanish('nothing (at all)')).toBe('nada de nada');
    expect(spanish('Is it *new*?')).toBe('¿Es nuevo?');
  });

  it('have what stands in them put into it too where it is one of the texts', () => {
    expect(spanish('row 12: expected a number, found nothing (at all)')).toBe(
      'fila 12: se esperaba un número y hay nada de nada',
    );
    expect(spanish('row 12: neither of the texts, at all')).toBe('fila 12: neither de the texts, at all');
    expect(spanish('row 3: no text here!')).toBe('fila 3: no text here!');
  });

  it('are those of the first rule that fits, whole and to the letter', () => {
    expect(spanish('nothing else')).toBe('nada else');
    expect(spanish('it is a number!')).toBeNull();
    expect(spanish('a number more, please')).toBeNull();
    expect(spanish('Is it neew!')).toBeNull();
    expect(spanish('nothing at all')).toBe('nada at all');
  });

  it('reach over lines', () => {
    expect(spanish('row 1: "a\nb"')).toBe('fila 1: "a\nb"');
  });

  it('are themselves where they are no words: quoted, bracketed, numbers, names', () => {
    for (const text of ['"a number"', "'x y'", '[1, 2]', '{ a }', '(b c)', '<tag y>', '-5 kg', '12 oz', '.5', ',']) {
      expect(spanish(text), text).toBe(text);
    }
    for (const text of ['true', 'false', 'null', 'a-name', 'a/path.yaml', 'snake_case', 'SKU-12.3']) {
      expect(spanish(text), text).toBe(text);
    }
    // what is quoted is not looked into
    expect(spanish('row "a number": a number')).toBe('fila "a number": un número');
  });

  it('are none where no rule fits: words that nobody put into the other language', () => {
    for (const text of ['some other words', 'trueish words', 'null and void', '', '!', 'a, b']) {
      expect(spanish(text), text).toBeNull();
    }
  });
});
