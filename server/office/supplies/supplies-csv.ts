import { amountShown, rollUnit } from '#shared/supplies/amounts.ts';
import { csvText } from '#shared/words/csv.ts';
import type { Language } from '#shared/words/language.ts';
import type { SuppliesView } from '#shared/wire/supplies.ts';

const HEADER = [
  'id',
  'name',
  'unit',
  'onHand',
  'onOrder',
  'perDay',
  'perDaySd',
  'leadTimeDays',
  'leadTimeSd',
  'safetyStock',
  'reorderPoint',
  'daysOfCover',
  'state',
  'packsToOrder',
  'pack',
  'cost',
  'currency',
];

/** Every supply as a file. Amounts are pieces, metres or yards, as `unit` says. */
export function suppliesCsv({ rows, shown }: SuppliesView, language: Language): string {
  const places = (value: number) => Math.round(value * 1000) / 1000;
  return csvText(
    HEADER,
    rows.map((row) => {
      const amount = (value: number) => places(amountShown(value, row.unit, shown));
      const { cost } = row.toOrder;
      return [
        row.id,
        row.name[language],
        row.unit === 'piece' ? 'piece' : rollUnit(shown),
        row.onHand === null ? null : amount(row.onHand),
        amount(row.onOrder),
        amount(row.demand.mean),
        amount(row.demand.sd),
        row.leadTime.mean,
        row.leadTime.sd,
        amount(row.safetyStock),
        amount(row.reorderPoint),
        row.daysOfCover === null ? null : places(row.daysOfCover),
        row.state,
        row.toOrder.packs,
        amount(row.pack),
        cost === null ? null : (cost.minor / 100).toFixed(2),
        cost?.currency ?? null,
      ];
    }),
  );
}
