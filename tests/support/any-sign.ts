import fc from 'fast-check';

/**
 * Every sign of Unicode but the halves of pairs, those of one byte as often as the rest: what the library's own unit of this
 * kind draws, which takes seconds to be made.
 */
export const anySign = fc
  .oneof(
    fc.integer({ min: 0, max: 0xff }),
    fc.integer({ min: 0, max: 0xd7ff }),
    fc.integer({ min: 0xe000, max: 0x10ffff }),
  )
  .map((code) => String.fromCodePoint(code));
