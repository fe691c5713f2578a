import { html } from 'lit';
import { DECISIONS } from '#shared/reports/report.ts';
import { decimalsIn } from '#shared/units/decimal-mark.ts';
import { formatMass, massFromGrams } from '#shared/units/mass.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import type { CorrectedParcel, NamedGroup, Report } from '#shared/wire/report.ts';
import type { Language } from '#shared/words/language.ts';
import { columnsOf, type DataColumn } from '../components/table-rows.ts';
import { moneyWords } from '../i18n/money.ts';

export function amountOf(minor: number, currency: string, language: Language): string {
  return formatMoney(money(Math.round(minor), currency), language);
}

export function perParcel(sum: number, parcels: number): number | null {
  return parcels === 0 ? null : sum / parcels;
}

/** All figures of the groups, one row each. */
export function groupColumns(report: Report, language: Language): readonly DataColumn<unknown>[] {
  const words = moneyWords[language];
  const { facts } = words;
  const amount = (key: string, title: string, value: (row: NamedGroup) => number | null): DataColumn<NamedGroup> => ({
    key,
    title,
    number: true,
    value: (row) => {
      const minor = value(row);
      return minor === null ? null : Math.round(minor) / 100;
    },
    cell: (row) => {
      const minor = value(row);
      return minor === null ? '' : amountOf(minor, report.currency, language);
    },
  });
  return columnsOf<NamedGroup>([
    {
      key: 'name',
      title: words.sides[report.by],
      value: (row) => row.name[language],
      ...(report.by === 'day' ? { cell: (row) => html`<span class="nowrap">${row.name[language]}</span>` } : {}),
    },
    { key: 'parcels', title: facts.parcels, number: true, value: (row) => row.parcels },
    amount('postage', facts.postage, (row) => row.postage),
    amount('paid', facts.paid, (row) => (row.paid.parcels === 0 ? null : row.paid.paid)),
    amount('difference', facts.difference, (row) => (row.paid.parcels === 0 ? null : row.paid.paid - row.paid.postage)),
    amount('ladder', facts.ladder, (row) => (row.ladder.parcels === 0 ? null : row.ladder.saved)),
    amount('carton', facts.carton, (row) => (row.carton.parcels === 0 ? null : row.carton.saved)),
    { key: 'close', title: facts.close, number: true, value: (row) => row.close },
    ...DECISIONS.map((decision): DataColumn<NamedGroup> => ({
      key: decision,
      title: words.decisions[decision],
      number: true,
      value: (row) => row.decisions[decision],
    })),
    { key: 'corrections', title: facts.corrections, number: true, value: (row) => row.corrections.parcels },
    amount('material', facts.material, (row) => perParcel(row.material, row.parcels)),
    {
      key: 'time',
      title: facts.time,
      number: true,
      value: (row) => {
        const seconds = perParcel(row.seconds.sum, row.seconds.parcels);
        return seconds === null ? null : Math.round(seconds / 6) / 10;
      },
      cell: (row) => {
        const seconds = perParcel(row.seconds.sum, row.seconds.parcels);
        return seconds === null ? '' : words.minutes(decimalsIn((seconds / 60).toFixed(1), report.unit, language));
      },
    },
  ]);
}

/** What the carrier found beside what the station had said, and whether it lies within the margin of error. */
export function correctedColumns({ unit }: Report, language: Language): readonly DataColumn<unknown>[] {
  const words = moneyWords[language];
  const { corrected } = words;
  const mass = (key: string, title: string, value: (row: CorrectedParcel) => number): DataColumn<CorrectedParcel> => ({
    key,
    title,
    number: true,
    value: (row) => Math.round(value(row) * 100) / 100,
    cell: (row) => formatMass(massFromGrams(value(row)), unit, unit === 'g' ? 0 : 2, language),
  });
  return columnsOf<CorrectedParcel>([
    { key: 'order', title: corrected.order, value: (row) => `${row.order} / ${String(row.number)}` },
    { key: 'day', title: corrected.day, value: (row) => row.day },
    { key: 'bench', title: corrected.bench, value: (row) => row.bench },
    { key: 'service', title: corrected.service, value: (row) => row.service[language] },
    mass('ours', corrected.ours, (row) => row.ours),
    mass('carriers', corrected.carriers, (row) => row.carriers),
    mass('differs', corrected.differs, (row) => row.carriers - row.ours),
    {
      key: 'within',
      title: corrected.within,
      value: (row) => (Math.abs(row.carriers - row.ours) <= row.uncertainty ? words.yes : words.no),
    },
    mass('ceiling', corrected.ceiling, (row) => row.ceiling),
  ]);
}
