import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import { PLAIN_SHIPMENTS } from '#shared/shipments/fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massDigits, massFromBase, massFromGrams, type Mass } from '#shared/units/mass.ts';
import type { CustomsFact, CustomsGap, CustomsLine } from '#shared/wire/label.ts';

/** Whether the customs must be told what is in it. */
export function goesAbroad({ to }: Pick<Order, 'to'>, { from }: Pick<Shop, 'from'>): boolean {
  return to.country !== from.country;
}

/**
 * What the customs are told, one line for each kind of piece in a parcel.
 * @param skus as they lie in the parcel, one that lies in it twice is named twice
 * @param grams what a piece is expected to weigh, by SKU, for those that were not weighed
 */
export function customsLines(
  skus: readonly string[],
  pieces: ReadonlyMap<string, Piece>,
  shop: Pick<Shop, 'wardrobe' | 'shipments' | 'units'>,
  grams: Readonly<Record<string, number>> = {},
): readonly CustomsLine[] {
  const { origin, hsCodes } = shop.shipments ?? PLAIN_SHIPMENTS;
  return [...new Set(skus)].map((sku): CustomsLine => {
    const piece = pieces.get(sku);
    const count = skus.filter((each) => each === sku).length;
    const kind = piece === undefined ? undefined : shop.wardrobe.kinds.get(piece.kind);
    const mass = piece === undefined ? null : massOf(piece, grams[sku] ?? kind?.mass.mean);
    const value = piece?.value;
    return {
      sku,
      contents: kind?.name.en ?? piece?.kind ?? '',
      count,
      value: value === undefined ? null : { minor: value.minor * count, currency: value.currency },
      mass:
        mass === null
          ? null
          : { amount: massDigits(massFromBase(mass * count), shop.units.mass, 2), unit: shop.units.mass },
      origin: piece?.origin ?? origin ?? null,
      hsCode: piece?.hsCode ?? (piece === undefined ? undefined : hsCodes[piece.kind]) ?? null,
    };
  });
}

function massOf({ mass }: Piece, expected: number | undefined): Mass | null {
  if (mass !== undefined) return mass;
  return expected === undefined ? null : massFromGrams(expected);
}

/** What is missing before the parcel may go abroad; the tariff number may be. */
export function customsGaps(lines: readonly CustomsLine[], titleOf: (sku: string) => string): readonly CustomsGap[] {
  return lines.flatMap((line) => {
    const missing: CustomsFact[] = [];
    if (line.value === null) missing.push('value');
    if (line.mass === null) missing.push('mass');
    if (line.origin === null) missing.push('origin');
    return missing.length === 0 ? [] : [{ sku: line.sku, title: titleOf(line.sku), missing }];
  });
}
