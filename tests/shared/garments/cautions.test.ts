import { describe, expect, it } from 'vitest';
import { cautionsOf } from '#shared/garments/cautions.ts';
import type { Piece } from '#shared/garments/types.ts';
import { demoWardrobe } from '#tests/support/demo-wardrobe.ts';

const wardrobe = demoWardrobe();
const piece = (more: Partial<Piece>): Piece => ({ sku: 's', title: 't', kind: 't-shirt', ...more });

describe('cautionsOf', () => {
  it.each([
    [{}, []],
    [{ kind: 'jeans' }, ['pockets-lithium']],
    [{ kind: 'jacket', cloth: 'leather' }, ['pockets-lithium', 'must-not-press']],
    [{ kind: 'dress', cloth: 'sequins' }, ['must-not-press']],
    [{ kind: 'suit-jacket' }, ['pockets-lithium', 'must-not-press']],
    [{ kind: 'hat' }, ['must-not-press']],
    [{ kind: 'shoes' }, []],
  ] as const)('%j: %j', (more, expected) => {
    expect(cautionsOf(piece(more), wardrobe)).toEqual(expected);
  });
});
