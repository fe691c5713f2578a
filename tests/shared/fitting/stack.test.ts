import { describe, expect, it } from 'vitest';
import { FOLD_SPREAD, stackOf } from '#shared/fitting/stack.ts';
import { NO_WRAP, aBlock } from '#tests/support/demo-wardrobe.ts';

describe('stackOf', () => {
  it('lays long sides along each other and adds up what lies on each other, each in its wrap', () => {
    const blocks = [aBlock([300, 120, 20]), aBlock([150, 200, 5])];
    expect(stackOf(blocks, { ...NO_WRAP, thickness: 1 })).toMatchObject({ short: 150, long: 300, resting: 27 });
  });

  it('adds the variances of the thickness that decides', () => {
    const cloth = { soft: true, pressedThickness: 10 } as const;
    const pressed = { ...cloth, mayPress: true };
    const blocks = (each: typeof cloth) => [3, 4].map((sd) => aBlock([100, 200, 20], { ...each, thicknessSd: sd }));
    // 3 and 4 mm come to 5; of half the thickness, half the spread
    expect(stackOf(blocks(cloth), NO_WRAP)).toMatchObject({ variance: 25, resting: 40, pressed: 20, mayPress: false });
    expect(stackOf(blocks(pressed), NO_WRAP)).toMatchObject({ variance: 6.25, mayPress: true });
  });

  it('knows the sides of rigid things exactly, and has corners as soon as one of them has', () => {
    const soft = aBlock([100, 200, 20], { soft: true, mayPress: true });
    const rigid = aBlock([100, 200, 20]);
    expect(stackOf([rigid], NO_WRAP)).toMatchObject({ soft: false, sideSd: 0 });
    expect(stackOf([soft], NO_WRAP)).toMatchObject({ soft: true, sideSd: FOLD_SPREAD });
    expect(stackOf([soft, rigid], NO_WRAP)).toMatchObject({ soft: false, sideSd: FOLD_SPREAD, mayPress: true });
  });

  it.each(['width', 'length', 'thickness', 'pressedThickness'] as const)('refuses a %s of nothing', (measure) => {
    const block = { ...aBlock([100, 200, 10]), [measure]: 0 };
    const found = `found ${block.width} x ${block.length} x ${block.thickness} (pressed ${block.pressedThickness})`;
    expect(() => stackOf([block], NO_WRAP)).toThrow(`fit: expected a block with sides above 0 mm, ${found}`);
  });

  it('refuses no pieces at all', () => {
    expect(() => stackOf([], NO_WRAP)).toThrow('fit: expected at least one folded piece, found none');
  });
});
