import { describe, expect, it } from 'vitest';
import type { FoldDrawing } from '#shared/folding/types.ts';
import { planForRun } from '#shared/planning/for-run.ts';
import type { OrderPlan, ParcelPlan } from '#shared/planning/types.ts';
import { parcel, plan } from '#tests/support/run-fixtures.ts';

const way = (...containers: string[]): OrderPlan['alternatives'][number] => ({
  parcels: containers.map((id) => ({ ...parcel(['A'], id), otherServices: [parcel([]).prices] })),
  cost: { ...parcel([]).cost, total: 800 + containers.length },
});

describe('a plan as a run needs it', () => {
  const planned: OrderPlan = {
    ...plan([{ ...parcel(['A', 'B'], 'pouch-a'), otherServices: [parcel([]).prices] }, parcel(['C'], 'box-b')]),
    alternatives: [way(), way('pouch-a'), way('card-c', 'card-d'), way('box-e')],
    whyNot: [{ container: 'box-e', code: 'dearer', values: {} }],
  };
  const forRun = () => planForRun(planned);

  it('has its parcels in full, with what other services ask', () => {
    const { order, cost, proven, parcels } = forRun();
    expect({ order, cost, proven }).toEqual({ order: planned.order, cost: planned.cost, proven: true });
    expect(parcels).toEqual(planned.parcels);
    expect(parcels[0]?.otherServices).toHaveLength(1);
  });

  it('has of the alternatives the next best in another container, without its folds', () => {
    const [next, ...more] = forRun().alternatives;
    expect(more).toEqual([]);
    expect(next?.cost.total).toBe(802);
    expect(next?.parcels.map((each) => each.container.id)).toEqual(['card-c', 'card-d']);
    for (const each of next?.parcels ?? []) {
      expect(each.otherServices).toEqual([]);
      expect(each.pieces.map(({ piece: { sku } }) => sku)).toEqual(['A']);
      expect(each.pieces[0]?.fold).toMatchObject({ recipe: 'flat', steps: [] });
      expect(each.pieces[0]?.mass).toEqual({ mean: 200, sd: 8 });
    }
    const alike = planForRun({ ...planned, alternatives: [way('pouch-a')] });
    expect(alike.alternatives).toEqual([]);
  });

  it('has no reasons, and what was promised or not proven only where it is said', () => {
    expect(forRun().whyNot).toEqual([]);
    expect(Object.keys(forRun()).toSorted()).toEqual(['alternatives', 'cost', 'order', 'parcels', 'proven', 'whyNot']);
    const promise = { service: 'quick', kept: false };
    expect(planForRun({ ...planned, promise, proven: false, lowerBound: 512.5 })).toMatchObject({
      promise,
      proven: false,
      lowerBound: 512.5,
    });
  });

  it('has its drawings as fine as a screen shows, the rest of every step as it was', () => {
    const [first] = planned.parcels;
    const [piece] = first!.pieces;
    const [step] = piece!.fold.steps;
    const corner = (x: number, y: number) => [x + 0.0123456, y] as const;
    const drawing: FoldDrawing = {
      still: [{ points: [corner(0, 0), corner(100, 0), corner(100, 50)], side: 'face', layers: 1 }],
      moving: [],
      landing: [],
      bounds: { x: 0, y: 0, width: 100, height: 100 },
      endsAs: { width: 100, length: 100 },
    };
    const fine: ParcelPlan = {
      ...first!,
      pieces: [{ ...piece!, fold: { ...piece!.fold, steps: [{ ...step!, drawing }] } }],
    };
    const [coarse] = planForRun({ ...planned, parcels: [fine] }).parcels[0]!.pieces[0]!.fold.steps;
    expect([coarse?.words, coarse?.spoken]).toEqual([step!.words, step!.spoken]);
    expect(coarse?.drawing.still[0]?.points).toEqual([
      [0, 0],
      [100, 0],
      [100, 50],
    ]);
  });
});
