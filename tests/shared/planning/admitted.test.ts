import { describe, expect, it } from 'vitest';
import { piece, smallShop } from './small-shop.ts';
import type { Container } from '#shared/fitting/types.ts';
import {
  admittedBy,
  containerById,
  containersOf,
  isAmong,
  isTooTightToo,
  wrapsWanted,
} from '#shared/planning/preferences.ts';
import type { Shop, ShopPreferences } from '#shared/shop/shop.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { money } from '#shared/units/money.ts';
import { aContainer } from '#tests/support/demo-wardrobe.ts';

const usd = (minor: number) => money(minor, 'USD');
const pouch = (id: string, width: number, length: number, more: Partial<Container> = {}) =>
  aContainer('pouch', [width, length], { id, ...more });

const CONTAINERS = [
  pouch('small', 100, 200),
  pouch('broad', 150, 200),
  pouch('also-broad', 150, 200),
  pouch('long', 120, 300),
  pouch('posted', 200, 400, { ownedBy: 'test-post' }),
  pouch('padded', 260, 460, { wall: lengthFromMillimetres(3) }),
  aContainer('card', [300, 400], { id: 'card' }),
  aContainer('carton', [300, 400, 200], { id: 'carton' }),
];

const shopOf = (preferences?: ShopPreferences): Shop => ({
  ...smallShop({ containers: new Map(CONTAINERS.map((each) => [each.id, each])) }),
  ...(preferences && { preferences }),
});
const DOUBLING = shopOf({ doubleBagAbove: usd(12_000) });

const worth = (...values: (number | null)[]) =>
  values.map((value, index) => ({
    piece: piece(`P${String(index)}`, 't-shirt', value === null ? {} : { value: usd(value) }),
  }));

describe('one pouch in another', () => {
  it('is every film of the shop’s own in every larger pouch, no film in itself', () => {
    const doubled = containersOf(DOUBLING).flatMap(({ doubled: both }) =>
      both ? [`${both.inner} in ${both.outer}`] : [],
    );
    expect(doubled.toSorted()).toEqual(
      [
        'small in broad',
        'small in also-broad',
        'small in long',
        'small in posted',
        'small in padded',
        'broad in also-broad',
        'also-broad in broad',
        'broad in posted',
        'also-broad in posted',
        'broad in padded',
        'also-broad in padded',
        'long in posted',
        'long in padded',
      ].toSorted(),
    );
  });

  it('is there beside the shop’s containers, and only where it wants them', () => {
    expect(containersOf(DOUBLING).slice(0, CONTAINERS.length)).toEqual(CONTAINERS);
    expect(containersOf(shopOf())).toEqual(CONTAINERS);
  });

  it('is found by its id, the very same each time, like any container', () => {
    const double = containersOf(DOUBLING).find(
      ({ doubled }) => doubled?.outer === 'padded' && doubled.inner === 'small',
    );
    expect(containerById(DOUBLING, double?.id ?? '')).toBe(double);
    expect(containersOf(DOUBLING)).toContain(double);
    expect(containerById(DOUBLING, 'card')).toBe(CONTAINERS[6]);
    expect(containerById(DOUBLING, 'none')).toBeUndefined();
  });

  it('is named by its own id and by those of its two pouches', () => {
    const double = containerById(DOUBLING, 'padded+small')!;
    const among = (...ids: string[]) => isAmong(double, ids);
    expect([among('padded'), among('card', 'small'), among('padded+small')]).toEqual([true, true, true]);
    expect([among(), among('broad', 'long+small')]).toEqual([false, false]);
    expect([isAmong(CONTAINERS[0]!, ['small']), isAmong(CONTAINERS[0]!, ['padded+small'])]).toEqual([true, false]);
  });

  it('is as tight as its inner pouch was, whatever is around it', () => {
    const tight = (id: string, ...found: string[]) => isTooTightToo(containerById(DOUBLING, id)!, found, DOUBLING);
    expect(tight('padded+small', 'small')).toBe(true);
    expect(tight('padded+small', 'padded+small')).toBe(true);
    expect(tight('padded+small', 'card', 'long+small')).toBe(true);
    expect(tight('padded+small', 'padded')).toBe(false);
    expect(tight('padded+small', 'padded+broad')).toBe(false);
    expect(tight('padded+small', 'no longer there')).toBe(false);
    expect(tight('padded+small')).toBe(false);
    expect([tight('small', 'broad'), tight('long', 'broad'), tight('padded+small', 'broad')]).toEqual([
      true,
      false,
      true,
    ]);
    expect([tight('card', 'card'), tight('card', 'carton'), tight('small', 'padded+small')]).toEqual([
      true,
      false,
      false,
    ]);
  });
});

describe('what a shop puts pieces into', () => {
  const admitted = (shop: Shop, ...values: (number | null)[]) =>
    containersOf(DOUBLING)
      .filter((container) => admittedBy(shop)(container, worth(...values)))
      .map(({ id }) => id);
  const singles = CONTAINERS.map(({ id }) => id);

  it('is no double bag below the sum or without a value, nor where it wants none', () => {
    expect(admitted(DOUBLING, 11_999, null)).toEqual(singles);
    expect(admitted(shopOf(), 20_000)).toEqual(singles);
    expect(admitted(shopOf({}), 20_000)).toEqual(singles);
  });

  it('is no single film from the sum on, whichever piece is worth it', () => {
    const all = containersOf(DOUBLING).map(({ id }) => id);
    const film = ['small', 'broad', 'also-broad', 'long', 'posted'];
    const dear = all.filter((id) => !film.includes(id));
    expect(dear).toContain('padded');
    expect(admitted(DOUBLING, 12_000)).toEqual(dear);
    expect(admitted(DOUBLING, null, 10, 12_001)).toEqual(dear);
  });
});

describe('what a shop puts around pieces', () => {
  const wraps = (shop: Shop, ...values: (number | null)[]) => wrapsWanted(shop)(worth(...values)).map(({ id }) => id);

  it('is any wrap, or of those that it wants from a sum on', () => {
    const shop = shopOf({ wrapAbove: { value: usd(8000), wraps: ['tissue', 'velvet'] } });
    expect(wraps(shop, 7999, null)).toEqual(['none', 'tissue']);
    expect(wraps(shop, null, 8000)).toEqual(['tissue']);
    expect(wraps(shopOf(), 9000)).toEqual(['none', 'tissue']);
    expect(wraps(DOUBLING, 90_000)).toEqual(['none', 'tissue']);
  });
});
