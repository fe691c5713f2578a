import { calendarDay } from '#server/calendar.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { firstDay, stockLevels, usedByDay, type StockLevel } from '#server/store/stock.ts';
import { daysLater } from '#shared/rating/day.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { amountWords, lumpOf } from '#shared/supplies/amounts.ts';
import { dailyDemand } from '#shared/supplies/demand.ts';
import { daysOfCover, packsToOrder, reorderPoint, safetyStock, stockState } from '#shared/supplies/reorder.ts';
import type { Supply } from '#shared/supplies/types.ts';
import { money } from '#shared/units/money.ts';
import type { ShortSupply, SuppliesView, SupplyRow } from '#shared/wire/supplies.ts';

const NEVER_COUNTED: StockLevel = { onHand: null, onOrder: 0, countedAt: null };

/** The days over which demand is measured: whole ones before today, none before the shop's first parcel. */
export async function demandDays(store: StoreOrTransaction, shop: Shop, now: number): Promise<readonly string[]> {
  const first = await firstDay(store);
  if (first === null || shop.stockRules === undefined) return [];
  const today = calendarDay(now, shop.timeZone);
  const days: string[] = [];
  for (let day = daysLater(today, -shop.stockRules.demandDays); day < today; day = daysLater(day, 1)) {
    if (day >= first) days.push(day);
  }
  return days;
}

/** Every supply with its level, demand, reorder point, and what is to be ordered. */
export async function suppliesView(store: StoreOrTransaction, shop: Shop, now: number): Promise<SuppliesView> {
  const rules = shop.stockRules ?? { serviceLevel: 0.95, demandDays: 28, coverDays: 30 };
  const days = await demandDays(store, shop, now);
  const used = await usedByDay(store, days[0] ?? calendarDay(now, shop.timeZone));
  const levels = await stockLevels(store);
  const rows = (shop.supplies ?? []).map((supply): SupplyRow => {
    const { onHand, onOrder, countedAt } = levels.get(supply.id) ?? NEVER_COUNTED;
    const ofDay = used.get(supply.id);
    const { leadTime, pack } = supply;
    const demand = dailyDemand(
      days.map((day) => ofDay?.get(day) ?? 0),
      supply.perDay,
      lumpOf(supply),
    );
    const wants = { demand, leadTime, serviceLevel: rules.serviceLevel };
    const at = reorderPoint(wants);
    const packs = onHand === null ? 0 : packsToOrder({ ...wants, onHand, onOrder, coverDays: rules.coverDays, pack });
    return {
      id: supply.id,
      name: supply.name,
      unit: supply.unit,
      container: supply.container ?? null,
      pack,
      state: stockState(onHand, at),
      onHand,
      onOrder,
      demand,
      leadTime,
      safetyStock: safetyStock(wants),
      reorderPoint: at,
      daysOfCover: onHand === null ? null : daysOfCover(onHand, demand),
      toOrder: { packs, amount: packs * pack, cost: costOf(supply, packs) },
      countedAt,
    };
  });
  return { now, timeZone: shop.timeZone, shown: shop.units.length, ...rules, rows };
}

function costOf({ packCost }: Supply, packs: number) {
  return packCost === undefined ? null : money(packCost.minor * packs, packCost.currency);
}

/** What a bench is warned of, what is gone first. */
export function shortSupplies({ rows, shown }: SuppliesView): readonly ShortSupply[] {
  const all = rows.flatMap(({ name, state, onHand, unit }): ShortSupply[] =>
    state === 'low' || state === 'out'
      ? [{ name, state, left: amountWords(Math.max(0, onHand ?? 0), unit, shown, 'en') }]
      : [],
  );
  return [...all.filter(({ state }) => state === 'out'), ...all.filter(({ state }) => state === 'low')];
}
