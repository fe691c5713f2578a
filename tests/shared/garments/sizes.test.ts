import { describe, expect, it } from 'vitest';
import { assumedOf, clothOf, kindOf, measuresOf, measuresOfSize } from '#shared/garments/measures.ts';
import { cautionsOf } from '#shared/garments/cautions.ts';
import { massScale, pieceMass } from '#shared/garments/mass.ts';
import type { Cloth, Kind, Piece, Wardrobe } from '#shared/garments/types.ts';

const text = { en: 'x', es: 'x' };
const aKind = (id: string, more: Partial<Kind>): Kind => ({
  id,
  name: text,
  outline: 'strip',
  sizes: {},
  defaultSize: 'M',
  defaultCloth: 'light',
  mass: { mean: 100, sd: 20 },
  clothLayers: 2,
  recipes: [],
  cautions: [],
  source: 'test',
  ...more,
});
const aCloth = (id: string, arealMass: number, more: Partial<Cloth> = {}): Cloth => ({
  id,
  name: text,
  arealMass,
  thicknessFree: 1,
  thicknessPressed: 0.5,
  thicknessSpread: 0.1,
  bendingLength: 10,
  mayPress: true,
  source: 'test',
  ...more,
});
const trousers = aKind('trousers', {
  outline: 'legs',
  defaultSize: '32',
  sizes: {
    '32': { width: 400, length: 1000, inseam: 800 },
    '34': { width: 420, length: 1010, inseam: 810 },
    '34x36': { width: 421, length: 1111, inseam: 911 },
  },
});
const scarf = aKind('scarf', {
  sizes: { M: { width: 300, length: 1000 }, L: { width: 600, length: 1000 }, X: { width: 1, length: 1 } },
});
const bag = aKind('bag', { outline: 'block', sizes: { one: { width: 1, length: 1, height: 1 } }, defaultSize: 'one' });
const shorts = aKind('shorts', { ...trousers, id: 'shorts', sizes: { '32': { width: 400, length: 450 } } });
const wardrobe: Wardrobe = {
  kinds: new Map([trousers, scarf, bag, shorts].map((kind) => [kind.id, kind])),
  cloths: new Map([
    ['light', aCloth('light', 100)],
    ['heavy', aCloth('heavy', 250)],
  ]),
};
const piece = (kind: string, more: Partial<Piece> = {}): Piece => ({ sku: 'OT-1', title: 'A piece', kind, ...more });

describe('a size', () => {
  it.each([
    ['34', 810],
    ['W34', null],
    ['w34l36', 911],
    ['W34 L36', 911],
    ['W 34 / L 36', 911],
    ['W34-L36', 911],
    ['W34XL36', 911],
    ['34 x 36', 911],
    ['34/36', 911],
    [' 34X36 ', 911],
    // another inseam, in inches, of a waist that the table has: 30 x 25.4 = 762
    ['34x30', 762],
    ['32 / 30', 762],
    ['34x3', null],
    ['34x300', null],
    ['34xa0', null],
    ['34x', null],
    ['x30', null],
    ['36x30', null],
    ['AW34L36', null],
    ['W34L36B', null],
    ['W34ZL36', null],
  ])('of trousers written %j has an inseam of %j mm', (size, inseam) => {
    expect(measuresOfSize(trousers, size)?.inseam ?? null).toBe(inseam);
  });

  it('of another inseam is as much longer', () => {
    expect(measuresOfSize(trousers, '34x30')).toEqual({ width: 420, length: 1010 - 48, inseam: 762 });
  });

  it('has another inseam only of trousers whose inseam is known', () => {
    expect(measuresOfSize(shorts, '32x30')).toBeNull();
    const skirt = { ...trousers, outline: 'skirt' } as const;
    expect(measuresOfSize(skirt, '34x30')).toBeNull();
    expect(measuresOfSize(scarf, 'l')).toEqual({ width: 600, length: 1000 });
    expect(measuresOfSize(scarf, '')).toBeNull();
  });
});

describe('what is assumed of a piece', () => {
  it.each<[string, Partial<Piece>, readonly string[]]>([
    ['scarf', {}, ['size', 'cloth']],
    ['scarf', { size: 'L', cloth: 'light' }, []],
    ['scarf', { size: 'enormous', cloth: 'light' }, ['size']],
    ['scarf', { measured: { width: 300 }, cloth: 'light' }, ['size']],
    ['scarf', { measured: { length: 300 }, cloth: 'light' }, ['size']],
    ['scarf', { measured: { width: 300, length: 900 } }, ['cloth']],
    ['bag', {}, []],
    ['shorts', {}, ['cloth']],
  ])('%s %j: %j', (kind, more, assumed) => {
    expect(assumedOf(piece(kind, more), wardrobe)).toEqual(assumed);
  });
});

describe('a piece that cannot be reckoned with is named, with what was expected', () => {
  it('of a kind or a cloth that the shop has not', () => {
    expect(() => kindOf(piece('kilt'), wardrobe)).toThrow(
      'piece OT-1: expected a kind of trousers, scarf, bag, shorts, found "kilt"',
    );
    expect(() => clothOf(piece('scarf', { cloth: 'tin' }), wardrobe)).toThrow(
      'piece OT-1: expected a cloth of light, heavy, found "tin"',
    );
  });

  it('of a kind without its own default size', () => {
    const odd = aKind('odd', { sizes: { L: { width: 1, length: 1 } } });
    const kinds = new Map([['odd', odd]]);
    expect(() => measuresOf(piece('odd'), { ...wardrobe, kinds })).toThrow(
      'kind odd: expected measures for its default size "M", found none',
    );
    expect(massScale(piece('odd', { size: 'L' }), { ...wardrobe, kinds })).toBe(1);
  });

  it.each([0, -3, Infinity, Number.NaN])('measured as %d mm', (width) => {
    expect(() => measuresOf(piece('scarf', { measured: { width } }), wardrobe)).toThrow(
      `piece OT-1: expected a width above 0 mm, found ${width}`,
    );
  });
});

describe('what a piece weighs beside its kind’s usual one', () => {
  it.each<[string, Partial<Piece>, number]>([
    ['scarf', {}, 1],
    ['scarf', { size: 'L' }, 2],
    ['scarf', { cloth: 'heavy' }, 2.5],
    ['scarf', { size: 'L', cloth: 'heavy' }, 5],
    ['scarf', { measured: { width: 450 } }, 1.5],
    ['bag', { cloth: 'heavy' }, 1],
  ])('%s %j: %d times', (kind, more, scale) => {
    expect(massScale(piece(kind, more), wardrobe)).toBeCloseTo(scale, 9);
  });

  it('goes by the area alone where the kind’s usual cloth is unknown', () => {
    const kinds = new Map([['scarf', { ...scarf, defaultCloth: 'gone' }]]);
    expect(massScale(piece('scarf', { size: 'L', cloth: 'heavy' }), { ...wardrobe, kinds })).toBeCloseTo(2, 9);
  });

  it('is unsure in proportion, less so once size and cloth are known: 30 and 35 % of the variance', () => {
    const sd = (more: Partial<Piece>) => pieceMass(piece('scarf', more), wardrobe).sd;
    expect(sd({})).toBeCloseTo(20, 9);
    expect(sd({ size: 'L' })).toBeCloseTo(40 * Math.sqrt(0.7), 9);
    expect(sd({ cloth: 'heavy' })).toBeCloseTo(50 * Math.sqrt(0.65), 9);
    expect(sd({ size: 'L', cloth: 'heavy' })).toBeCloseTo(100 * Math.sqrt(0.35), 9);
  });
});

describe('the caution not to press', () => {
  const cautions = (more: Partial<Kind>, cloth: Partial<Cloth> = {}) => {
    const kinds = new Map([['scarf', { ...scarf, cautions: ['knife'], ...more }]]);
    return cautionsOf(piece('scarf'), { kinds, cloths: new Map([['light', aCloth('light', 100, cloth)]]) });
  };

  it('comes from the kind or the cloth, once, and never from the cloth of a thing that keeps its shape', () => {
    expect(cautions({})).toEqual(['knife']);
    expect(cautions({ mayPress: false })).toEqual(['knife', 'must-not-press']);
    expect(cautions({}, { mayPress: false })).toEqual(['knife', 'must-not-press']);
    expect(cautions({ cautions: ['must-not-press'] }, { mayPress: false })).toEqual(['must-not-press']);
    expect(cautions({ outline: 'block' }, { mayPress: false })).toEqual(['knife']);
    expect(cautions({ outline: 'block', mayPress: false })).toEqual(['knife', 'must-not-press']);
    expect(cautions({ mayPress: true })).toEqual(['knife']);
  });
});
