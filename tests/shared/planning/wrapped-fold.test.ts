import { describe, expect, it } from 'vitest';
import { bySku, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Wrap, WrapStep } from '#shared/fitting/types.ts';
import type { DrawnPanel, FoldDrawing } from '#shared/folding/types.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { wrappedFold } from '#shared/planning/wrapped-fold.ts';
import { money } from '#shared/units/money.ts';

const words = (text: string) => ({ en: text, es: text });
const step = (into: WrapStep['into']): WrapStep => ({
  into,
  words: words(into),
  spoken: words(into),
  avoid: words('no'),
});
const tissue = smallShop().wraps.get('tissue')!;
const WITH_STEPS: Wrap = { ...tissue, steps: [step('sheet'), step('bag')] };

const shop = {
  ...smallShop({ wraps: new Map([['tissue', WITH_STEPS]]) }),
  preferences: { wrapAbove: { value: money(1, 'USD'), wraps: ['tissue'] } },
};

function planned(kind: string) {
  const one = piece('A', kind);
  const request = { order: orderOf([one]), pieces: bySku([one]), day: DAY };
  return {
    wrapped: planOrder({ ...request, shop }),
    bare: planOrder({ ...request, shop: { ...shop, wraps: new Map([['tissue', tissue]]) } }),
  };
}

const corners = (panels: readonly DrawnPanel[]) => panels.flatMap(({ points }) => points);

describe('wrapping', () => {
  it.each(['sweater', 'shoes'])('is the last of the steps, and counts once: %s', (kind) => {
    const { wrapped, bare } = planned(kind);
    const steps = wrapped.parcels[0]!.pieces[0]!.fold.steps;
    const before = bare.parcels[0]!.pieces[0]!.fold.steps;
    expect(steps.map((each) => each.words.en)).toEqual([...before.map((each) => each.words.en), 'sheet', 'bag']);
    expect(steps.at(-1)?.avoid).toEqual(words('no'));
    expect(wrapped.cost).toEqual(bare.cost);
  });

  it('is drawn from the folded piece, everything within its bounds', () => {
    const { fold } = planned('sweater').bare.parcels[0]!.pieces[0]!;
    const [sheet, bag] = wrappedFold({ ...fold, steps: [] }, WITH_STEPS).steps.map(
      ({ drawing }): FoldDrawing => drawing,
    );
    for (const drawing of [sheet!, bag!]) {
      const { x, y, width, height } = drawing.bounds;
      for (const [px, py] of corners([...drawing.still, ...drawing.moving, ...drawing.landing])) {
        expect(px).toBeGreaterThanOrEqual(x - 1e-9);
        expect(px).toBeLessThanOrEqual(x + width + 1e-9);
        expect(py).toBeGreaterThanOrEqual(y - 1e-9);
        expect(py).toBeLessThanOrEqual(y + height + 1e-9);
      }
      expect(drawing.endsAs).toEqual({ width: fold.block.width, length: fold.block.length });
    }
    expect(sheet?.also).toHaveLength(1);
    // each flap lands on the piece as far within its edge as it lay beyond it
    const [right] = sheet?.moving ?? [];
    const [rightLanded] = sheet?.landing ?? [];
    const edge = fold.block.width;
    const reach = Math.max(...corners([right!]).map(([px]) => px)) - edge;
    expect(edge - Math.min(...corners([rightLanded!]).map(([px]) => px))).toBeCloseTo(reach, 9);
  });

  it('nothing is added by a wrap without steps', () => {
    const { fold } = planned('sweater').bare.parcels[0]!.pieces[0]!;
    expect(wrappedFold(fold, tissue)).toBe(fold);
  });
});
