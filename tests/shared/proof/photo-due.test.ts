import { describe, expect, it } from 'vitest';
import { photoDue } from '#shared/proof/photo-due.ts';
import type { ProofSettings } from '#shared/proof/types.ts';
import { IDLE } from '#shared/run/initial.ts';
import type { RunState, Step } from '#shared/run/types.ts';
import { money } from '#shared/units/money.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';

const piece = (minor: number | null) => ({
  piece: { sku: 'A', title: 'a', kind: 'k', ...(minor === null ? {} : { value: money(minor, 'USD') }) },
});
const parcel = (...values: readonly (number | null)[]) => ({ pieces: values.map(piece) }) as unknown as ParcelPlan;
const at = (step: Step, change: Partial<RunState> = {}): RunState => ({
  ...IDLE,
  run: 'r',
  parcels: [parcel(2000, null), parcel(3999)],
  step,
  ...change,
});
const ALWAYS: ProofSettings = { photos: 'always', keepDays: 30 };
const from = (minor: number): ProofSettings => ({ photos: { from: money(minor, 'USD') }, keepDays: 30 });

describe('the photo that is due', () => {
  it.each<[Step, Partial<RunState>, unknown]>([
    [{ at: 'gather' }, {}, null],
    [{ at: 'fold', piece: 0, step: 0 }, {}, null],
    [{ at: 'fill' }, {}, null],
    [{ at: 'weigh' }, {}, { run: 'r', parcel: 1, what: 'packed' }],
    [{ at: 'decide', because: 'close' }, { parcel: 1 }, { run: 'r', parcel: 2, what: 'packed' }],
    [{ at: 'seal' }, {}, { run: 'r', parcel: 1, what: 'packed' }],
    [{ at: 'label' }, {}, null],
    [{ at: 'fold', piece: 0, step: 0 }, { parcel: 1 }, { run: 'r', parcel: 1, what: 'closed' }],
    [{ at: 'fill' }, { parcel: 1 }, { run: 'r', parcel: 1, what: 'closed' }],
    [{ at: 'done' }, { parcel: 1 }, { run: 'r', parcel: 2, what: 'closed' }],
    [{ at: 'done' }, { run: null }, null],
  ])('at %j with %j it is %j', (step, change, due) => {
    expect(photoDue(at(step, change), ALWAYS)).toEqual(due);
  });

  it('is none in practice, and none where the shop wants none', () => {
    expect(photoDue(at({ at: 'weigh' }, { practice: true }), ALWAYS)).toBeNull();
    expect(photoDue(at({ at: 'weigh' }), { photos: 'off', keepDays: 1 })).toBeNull();
    expect(photoDue(at({ at: 'weigh' }), undefined)).toBeNull();
  });

  it('is there from exactly the value that the shop says, over all parcels of the order', () => {
    expect(photoDue(at({ at: 'weigh' }), from(5999))).not.toBeNull();
    expect(photoDue(at({ at: 'weigh' }), from(6000))).toBeNull();
  });
});
