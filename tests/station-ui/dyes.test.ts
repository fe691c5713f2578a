import { describe, expect, it } from 'vitest';
import { DARK, LIGHT, TEXT_ON_GROUND, contrast } from '#station-ui/theme/dyes.ts';

describe('contrast', () => {
  it('agrees with the published examples (WCAG 2.2, 1.4.3: #767676 on white passes 4.5:1, #777777 does not)', () => {
    expect(contrast('#767676', '#FFFFFF')).toBeCloseTo(4.54, 2);
    expect(contrast('#777777', '#FFFFFF')).toBeCloseTo(4.48, 2);
    expect(contrast('#000000', '#FFFFFF')).toBeCloseTo(21, 5);
  });

  it.each([
    ['light', LIGHT],
    ['dark', DARK],
  ] as const)('every text on its ground holds 7:1 (WCAG 2.2, 1.4.6) in the %s theme', (_, dyes) => {
    const weak = TEXT_ON_GROUND.filter(([text, ground]) => contrast(dyes[text], dyes[ground]) < 7);
    expect(weak).toEqual([]);
  });
});
