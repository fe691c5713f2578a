import { html } from 'lit';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import { formatMass, massIn } from '#shared/units/mass.ts';
import type { HandedParcel } from '#shared/wire/hand-over.ts';
import type { Language } from '#shared/words/language.ts';
import { columnsOf, type DataColumn } from '../components/table-rows.ts';
import { handOverWords } from '../i18n/hand-over.ts';
import { dayAndTime } from '../i18n/time.ts';
import { benchName, type NamedBench } from './bench-name.ts';

export interface ParcelShowing {
  readonly language: Language;
  readonly unit: MassUnit;
  readonly places: number;
  readonly now: number;
  readonly timeZone: string;
  readonly benches: readonly NamedBench[];
}

/** The columns of every table of parcels on the page; a last one of buttons where there is one. */
export function parcelColumns(
  { language, unit, places, now, timeZone, benches }: ParcelShowing,
  buttons?: (parcel: HandedParcel) => unknown,
): readonly DataColumn<unknown>[] {
  const words = handOverWords[language];
  const { columns } = words;
  const clock = { now: new Date(now), timeZone };
  return columnsOf<HandedParcel>([
    {
      key: 'order',
      title: columns.order,
      value: (row) => words.parcelOf(row.order, row.number, row.of),
    },
    {
      key: 'label',
      title: columns.label,
      value: (row) => row.label ?? words.byEye,
      cell: (row) => html`<span class="long">${row.label ?? words.byEye}</span>`,
    },
    { key: 'buyer', title: columns.buyer, value: (row) => row.buyer },
    { key: 'service', title: columns.service, value: (row) => row.service[language] },
    {
      key: 'mass',
      title: columns.mass,
      number: true,
      value: (row) => Math.round(massIn(row.mass, unit) * 1000) / 1000,
      cell: (row) => shownMass(row.mass, unit, places, language),
    },
    {
      key: 'finished',
      title: columns.finished,
      value: (row) => new Date(row.finishedAt).toISOString(),
      cell: (row) => dayAndTime(new Date(row.finishedAt).toISOString(), language, clock),
    },
    { key: 'bench', title: columns.bench, value: (row) => benchName(row.bench, benches) },
    ...(buttons === undefined ? [] : [{ key: 'buttons', title: '', value: () => '', cell: buttons }]),
  ]);
}

export function shownMass(mass: Mass, unit: MassUnit, places: number, language: Language): string {
  return formatMass(mass, unit, places, language);
}
