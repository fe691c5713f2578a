import { HttpError } from '#server/http/http-error.ts';
import type { StockChange } from '#server/store/stock.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { parseAmount, rollUnit } from '#shared/supplies/amounts.ts';
import type { Supply } from '#shared/supplies/types.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import { typedQuantity } from '#shared/units/typed.ts';
import type { StockEntry } from '#shared/wire/supplies.ts';

/**
 * What a person typed of a supply, in its unit.
 * @throws HttpError 404 for an unknown supply, 400 for an amount that cannot be taken or a missing reason
 */
export function stockChange(item: string, entry: StockEntry, shop: Shop, at: number): StockChange {
  const supply = shop.supplies?.find(({ id }) => id === item);
  if (supply === undefined) throw new HttpError(404, 'unknown-supply', `There is no supply "${item}" in this shop.`);
  const { kind, reason, who } = entry;
  if (who !== null && !shop.staff.some(({ id }) => id === who)) {
    throw new HttpError(400, 'bad-request', `who: expected somebody who works here, found "${who}"`);
  }
  const amount = amountOf(entry, supply, shop);
  if (reason.trim() === '' && (kind === 'counted' || kind === 'taken')) {
    throw new HttpError(400, 'bad-request', 'reason: expected why the shelf changes, found nothing');
  }
  return { item, kind, amount, reason: reason.trim(), who, at };
}

function amountOf(entry: StockEntry, supply: Supply, shop: Shop): number {
  try {
    const said = typedQuantity(entry.amount, shop.importFormats.decimalMark, null);
    const amount =
      entry.in === 'pack'
        ? supply.pack * parseAmount(said, 'piece')
        : parseAmount(said, supply.unit, rollUnit(shop.units.length));
    if (!Number.isSafeInteger(amount)) throw new UnitError('too-large', 'amount: larger than this station counts');
    if (amount === 0 && entry.kind !== 'counted')
      throw new UnitError('out-of-range', 'amount: expected more than 0, found 0');
    return amount;
  } catch (error) {
    if (error instanceof UnitError) throw new HttpError(400, 'bad-request', error.message);
    throw error;
  }
}
