import { orderListDocument } from '#drivers/printer/documents/order-list.ts';
import type { PrintDocument } from '#drivers/printer/document.ts';
import { PAPER_WORDS } from '#drivers/printer/words.ts';
import { calendarDay } from '#server/calendar.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { amountWords } from '#shared/supplies/amounts.ts';
import { decimalsIn } from '#shared/units/decimal-mark.ts';
import { addMoney, formatMoney, money } from '#shared/units/money.ts';
import type { SuppliesView } from '#shared/wire/supplies.ts';
import type { Language } from '#shared/words/language.ts';

/** What has to be ordered now, as a list on paper. */
export function orderList({ rows, now, shown }: SuppliesView, shop: Shop, language: Language): PrintDocument {
  const words = PAPER_WORDS[language];
  const due = rows.filter(({ toOrder }) => toOrder.packs > 0);
  const costs = due.flatMap(({ toOrder }) => (toOrder.cost === null ? [] : [toOrder.cost]));
  return orderListDocument({
    language,
    shop: shop.name,
    day: calendarDay(now, shop.timeZone),
    lines: due.map(({ name, unit, pack, onHand, daysOfCover, toOrder }) => ({
      name: name[language],
      packs: `${String(toOrder.packs)} x ${amountWords(pack, unit, shown, language)}`,
      cost: toOrder.cost === null ? '' : formatMoney(toOrder.cost, language),
      left: words.left(
        amountWords(Math.max(0, onHand ?? 0), unit, shown, language),
        decimalsIn((daysOfCover ?? 0).toFixed(1), shown, language),
      ),
    })),
    total: formatMoney(addMoney(money(0, shop.currency), ...costs), language),
  });
}
