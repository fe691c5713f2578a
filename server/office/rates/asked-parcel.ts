import { emptySize } from '#shared/planning/smallest-filled.ts';
import { ratedParcel } from '#shared/planning/rated-parcel.ts';
import type { RatedParcel, Route } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { lengthFromDecimal, parseLength, toMillimetres, type Length, type LengthUnit } from '#shared/units/length.ts';
import { parseMass, type Mass } from '#shared/units/mass.ts';
import { UnitError } from '#shared/units/unit-error.ts';

/** A parcel, mass or place as somebody wrote it that makes no sense. `message` says what was expected and what is there. */
export class AskedError extends Error {
  override readonly name = 'AskedError';
  readonly field: 'container' | 'thickness' | 'size' | 'soft' | 'roll' | 'weight' | 'to' | 'zone' | 'parcel';

  constructor(field: AskedError['field'], message: string) {
    super(message);
    this.field = field;
  }
}

/** How a parcel may be given; exactly one of the first four. */
export interface AskedParcel {
  readonly container?: string | undefined;
  readonly size?: string | undefined;
  readonly soft?: string | undefined;
  /** length and diameter */
  readonly roll?: string | undefined;
  readonly thickness?: string | undefined;
}

const NOTHING = lengthFromDecimal('0', 'mm');

function quantity<Quantity>(field: AskedError['field'], text: string, parse: (text: string) => Quantity): Quantity {
  try {
    return parse(text);
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    throw new AskedError(field, error.message);
  }
}

/** "10x8x2in", "10 in x 8 in x 2 in"; sides without a unit take the last one's, or the shop's. */
function sides(
  field: AskedError['field'],
  text: string,
  counts: readonly number[],
  shopUnit: LengthUnit,
): readonly Length[] {
  const parts = text.split(/[x×]/i).map((side) => side.trim());
  if (!counts.includes(parts.length)) {
    throw new AskedError(field, `expected ${counts.join(' or ')} sides such as 10x8x2in, found "${text}"`);
  }
  const unit = /[a-z"]+$/i.exec(parts.at(-1) ?? '')?.[0] ?? shopUnit;
  return parts.map((side) => {
    const length = quantity(field, /[a-z"]$/i.test(side) ? side : `${side}${unit}`, parseLength);
    if (length > 0) return length;
    throw new AskedError(field, `expected sides above 0, found "${text}"`);
  });
}

function containerParcel(id: string, thickness: string | undefined, shop: Shop): RatedParcel {
  const container = shop.containers.get(id);
  if (container === undefined) {
    throw new AskedError('container', `expected one of ${[...shop.containers.keys()].join(', ')}; found "${id}"`);
  }
  const filled = emptySize(container);
  if (thickness === undefined) return ratedParcel(container, filled);
  const [thick = NOTHING] = sides('thickness', thickness, [1], shop.units.length);
  return ratedParcel(container, { ...filled, thickness: toMillimetres(thick) });
}

/** @throws AskedError */
export function askedParcel({ container, size, soft, roll, thickness }: AskedParcel, shop: Shop): RatedParcel {
  if ([container, size, soft, roll].filter((text) => text !== undefined).length !== 1) {
    throw new AskedError('parcel', 'expected one of container, size, soft and roll');
  }
  if (container !== undefined) return containerParcel(container, thickness, shop);
  const longestFirst = (lengths: readonly Length[]) => lengths.toSorted((a, b) => b - a);
  if (size !== undefined) {
    const [a = NOTHING, b = NOTHING, c = NOTHING] = longestFirst(sides('size', size, [3], shop.units.length));
    return { shape: { form: 'box', sides: [a, b, c] }, containerType: 'carton' };
  }
  if (roll !== undefined) {
    const [length = NOTHING, diameter = NOTHING] = sides('roll', roll, [2], shop.units.length);
    return { shape: { form: 'roll', length, diameter } };
  }
  const given = sides('soft', soft ?? '', [2, 3], shop.units.length);
  const [length = NOTHING, width = NOTHING] = longestFirst(given.slice(0, 2));
  return { shape: { form: 'soft', length, width, thickness: given[2] ?? NOTHING }, containerType: 'pouch' };
}

/** @throws AskedError */
export function askedMass(text: string): Mass {
  return quantity('weight', text, parseMass);
}

export interface AskedPlace {
  readonly postcode: string;
  readonly country: string;
  readonly residential?: boolean | undefined;
}

/**
 * From the shop, or a place that is named, to a postcode; or a zone that is known.
 * @throws AskedError when it is neither or both
 */
export function askedRoute(zone: string | undefined, to: AskedPlace | undefined, shop: Shop, from?: string): Route {
  if ((zone === undefined) === (to === undefined)) throw new AskedError('to', 'expected either a zone or a postcode');
  if (zone !== undefined) return { zone };
  const start = { postcode: from ?? shop.from.postcode, country: shop.from.country };
  const { postcode = '', country = shop.from.country, residential } = to ?? {};
  const end = { postcode, country: country.toUpperCase() };
  return { from: start, to: residential === undefined ? end : { ...end, residential } };
}
