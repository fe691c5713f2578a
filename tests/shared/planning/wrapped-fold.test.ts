import { describe, expect, it } from 'vitest';
import { bySku, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Wrap, WrapStep } from '#shared/fitting/types.ts';
import type { DrawnPanel, FoldDrawing, Point } from '#shared/folding/types.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { wrappedFold } from '#shared/planning/wrapped-fold.ts';
import { money } from '#shared/units/money.ts';
import { aBlock } from '#tests/support/demo-wardrobe.ts';

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

  /** A piece folded to 100 x 200 mm, eight layers thick. */
  const folded = (steps: Wrap['steps']) => {
    const block = aBlock([100, 200, 20], { layers: 8 });
    const fold = { recipe: 'flat', recipeName: words('flat'), steps: [], block, assumed: [] };
    return wrappedFold(fold, { ...tissue, ...(steps && { steps }) }).steps;
  };
  const drawn = (into: WrapStep['into']): FoldDrawing => folded([step(into)])[0]!.drawing;
  const box = (panels: readonly DrawnPanel[]) => {
    const xs = corners(panels).map(([x]) => x);
    const ys = corners(panels).map(([, y]) => y);
    return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
  };
  const rounded = (points: readonly Point[]) => points.map(([x, y]) => [Math.round(x * 1e6), Math.round(y * 1e6)]);

  it('is drawn within its bounds, which reach as far as what is drawn and no farther', () => {
    for (const into of ['sheet', 'bag'] as const) {
      const { still, moving, landing, bounds, endsAs } = drawn(into);
      const all = box([...still, ...moving, ...landing]);
      expect(bounds.x).toBeCloseTo(all.left, 9);
      expect(bounds.y).toBeCloseTo(all.top, 9);
      expect(bounds.x + bounds.width).toBeCloseTo(all.right, 9);
      expect(bounds.y + bounds.height).toBeCloseTo(all.bottom, 9);
      expect(endsAs).toEqual({ width: 100, length: 200 });
    }
  });

  it('in a sheet shows the piece on it, and both flaps come over the piece’s edges to lie on it, not on each other', () => {
    const { still, moving, landing, foldLine, also = [], arrow } = drawn('sheet');
    const [sheet, piece] = still;
    expect([sheet?.side, sheet?.layers, piece?.side, piece?.layers]).toEqual(['back', 1, 'face', 8]);
    expect(box([piece!])).toEqual({ left: 0, right: 100, top: 0, bottom: 200 });
    const under = box([sheet!]);
    expect([under.left, under.right]).toEqual([0, 100]);
    // it reaches as far beyond one end as beyond the other
    expect(under.top).toBeLessThan(0);
    expect(under.top).toBeGreaterThan(-100);
    expect(under.bottom - 200).toBeCloseTo(-under.top, 9);
    const [right, left] = moving.map((each) => box([each]));
    expect([right?.left, left?.right]).toEqual([100, 0]);
    expect(moving.map(({ side, layers }) => [side, layers])).toEqual([
      ['back', 1],
      ['back', 1],
    ]);
    expect(landing.map(({ side, layers }) => [side, layers])).toEqual([
      ['face', 1],
      ['face', 1],
    ]);
    const [rightLanded, leftLanded] = landing.map((each) => box([each]));
    // each as far within its edge as it lay beyond it: the mirror image in the edge
    expect(100 - rightLanded!.left).toBeCloseTo(right!.right - 100, 9);
    expect(leftLanded!.right).toBeCloseTo(-left!.left, 9);
    expect(leftLanded!.right).toBeLessThan(rightLanded!.left);
    // together they nearly cover it
    expect(rightLanded!.left - leftLanded!.right).toBeLessThan(20);
    for (const flap of [right!, left!, rightLanded!, leftLanded!]) {
      expect([flap.top, flap.bottom]).toEqual([under.top, under.bottom]);
    }
    // the lines are the piece's edges, the arrows cross them in the middle of its length, from flap to where it lands
    const [other, ...more] = also;
    expect(more).toEqual([]);
    expect(rounded(foldLine ?? [])).toEqual(
      rounded([
        [100, under.top],
        [100, under.bottom],
      ]),
    );
    expect(rounded(other?.foldLine ?? [])).toEqual(
      rounded([
        [0, under.top],
        [0, under.bottom],
      ]),
    );
    const middle = (from: number, to: number) => [(from + to) / 2, 100] as const;
    expect(rounded(arrow ?? [])).toEqual(
      rounded([middle(right!.left, right!.right), middle(rightLanded!.left, rightLanded!.right)]),
    );
    expect(rounded(other?.arrow ?? [])).toEqual(
      rounded([middle(left!.left, left!.right), middle(leftLanded!.left, leftLanded!.right)]),
    );
  });

  it('in a bag moves the piece straight down through its mouth, to lie within it', () => {
    const { still, moving, landing, arrow, foldLine } = drawn('bag');
    const [bag, ...others] = still;
    expect([bag?.side, bag?.layers, others]).toEqual(['back', 1, []]);
    expect([...moving, ...landing].map(({ side, layers }) => [side, layers])).toEqual([
      ['face', 8],
      ['face', 8],
    ]);
    expect(box(moving)).toEqual({ left: 0, right: 100, top: 0, bottom: 200 });
    const [inside, around] = [box(landing), box([bag!])];
    expect([inside.left, inside.right]).toEqual([0, 100]);
    expect(inside.bottom - inside.top).toBeCloseTo(200, 9);
    expect(around.top).toBeGreaterThan(200);
    // as much room around it on every side
    const rooms = [-around.left, around.right - 100, inside.top - around.top, around.bottom - inside.bottom];
    for (const room of rooms) expect(room).toBeCloseTo(rooms[0]!, 9);
    expect(rooms[0]).toBeGreaterThan(0);
    expect(rooms[0]).toBeLessThan(50);
    expect(foldLine).toBeUndefined();
    expect(rounded(arrow ?? [])).toEqual(
      rounded([
        [50, 100],
        [50, inside.top + 100],
      ]),
    );
  });

  it('says why and what to avoid where the shop does, and nothing where it does not', () => {
    const bare = { into: 'bag', words: words('b'), spoken: words('b') } as const;
    const [plain, told] = folded([bare, { ...bare, why: words('because'), avoid: words('no') }]);
    expect(told).toMatchObject({ why: words('because'), avoid: words('no') });
    expect(Object.keys(plain!).toSorted()).toEqual(['drawing', 'spoken', 'words']);
  });

  it('nothing is added by a wrap without steps', () => {
    const { fold } = planned('sweater').bare.parcels[0]!.pieces[0]!;
    expect(wrappedFold(fold, tissue)).toBe(fold);
  });
});
