import fc from 'fast-check';
import { expect, it } from 'vitest';
import { terminalText } from '#shared/words/terminal-text.ts';
import { anySign } from '#tests/support/any-sign.ts';

it('writes out what a terminal would obey, and leaves the rest', () => {
  // ECMA-48: CSI as ESC [ and as one sign of C1; UAX #9: an override.
  expect(terminalText('a\x1b[2Jb\u009b2Jc\u202ed\u2028e\x7ff\tg\nh é 漢')).toBe(
    'a\\u001b[2Jb\\u009b2Jc\\u202ed\\u2028e\\u007ff\tg\nh é 漢',
  );
});

it('of JSON makes the same JSON', () => {
  const text = fc.string({ unit: anySign });
  fc.assert(
    fc.property(fc.dictionary(text, fc.oneof(text, fc.integer(), fc.constant(null))), text, (value, text) => {
      const written = terminalText(JSON.stringify({ value, text }));
      expect(JSON.parse(written)).toEqual(JSON.parse(JSON.stringify({ value, text })));
      // eslint-disable-next-line no-control-regex -- they are what is looked for
      expect(written).not.toMatch(/[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e]/);
    }),
  );
});
