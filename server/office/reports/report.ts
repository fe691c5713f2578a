import { parcelFacts } from './facts.ts';
import { instantOf } from '../local-time.ts';
import { calendarDay } from '#server/calendar.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { daysLater } from '#shared/rating/day.ts';
import type { Day } from '#shared/rating/types.ts';
import { grouped, sums, type ReportBy } from '#shared/reports/report.ts';
import { serviceName } from '#shared/run/view/service-name.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { containersIn } from '#shared/supplies/used-by-parcel.ts';
import { massFromBase, toGrams } from '#shared/units/mass.ts';
import { csvText } from '#shared/words/csv.ts';
import type { Language, Localised } from '#shared/words/language.ts';
import type { CorrectedParcel, Report } from '#shared/wire/report.ts';

export interface ReportWish {
  readonly from: Day;
  readonly to: Day;
  readonly by: ReportBy;
}

function midnight(day: Day, timeZone: string): number {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  return instantOf({ year, month, day: date, hour: 0, minute: 0 }, timeZone);
}

function nameOf(by: ReportBy, key: string, shop: Shop): Localised {
  const plain = (text: string): Localised => ({ en: text, es: text });
  switch (by) {
    case 'day':
      return plain(key);
    case 'kind':
      if (key === 'mixed') return { en: 'several kinds', es: 'varios tipos' };
      return shop.wardrobe.kinds.get(key)?.name ?? plain(key);
    case 'container': {
      const names = containersIn(key).map((id) => shop.containers.get(id)?.name ?? plain(id));
      return { en: names.map(({ en }) => en).join(' + '), es: names.map(({ es }) => es).join(' + ') };
    }
    case 'service':
      return serviceName(shop, key);
    case 'person':
      if (key === '') return { en: 'nobody signed on', es: 'nadie registrado' };
      return plain(shop.staff.find(({ id }) => id === key)?.name ?? key);
  }
}

/** Money and quality of a period, by one side of its parcels. */
export async function report(store: StoreOrTransaction, shop: Shop, { from, to, by }: ReportWish): Promise<Report> {
  const period = { first: midnight(from, shop.timeZone), last: midnight(daysLater(to, 1), shop.timeZone) };
  const { facts, parcels } = await parcelFacts(store, shop, period);
  const grams = (base: number) => toGrams(massFromBase(base));
  return {
    from,
    to,
    by,
    currency: shop.currency,
    unit: shop.units.mass,
    sums: sums(facts),
    groups: grouped(facts, by).map((group) => ({ ...group, name: nameOf(by, group.key, shop) })),
    corrected: parcels.flatMap((parcel): CorrectedParcel[] =>
      parcel.carriers === null
        ? []
        : [
            {
              order: parcel.order,
              number: parcel.number,
              label: parcel.label,
              day: calendarDay(parcel.finishedAt, shop.timeZone),
              bench: parcel.bench,
              service: serviceName(shop, parcel.service),
              ours: grams(parcel.reading + parcel.toCome),
              carriers: grams(parcel.carriers),
              ceiling: grams(parcel.ceiling),
              uncertainty: grams(parcel.uncertainty),
            },
          ],
    ),
  };
}

const money = (minor: number) => (minor / 100).toFixed(2);
const HEADER = [
  'key',
  'name',
  'parcels',
  'orders',
  'postage',
  'buyersPaid',
  'paidParcels',
  'paidLessPostage',
  'savedAgainstLadder',
  'ladderParcels',
  'savedAgainstCarton',
  'cartonParcels',
  'close',
  'paidNextBracket',
  'keptAsIs',
  'madeLighter',
  'weighedAgain',
  'corrections',
  'correctionMeanGrams',
  'correctionsDearer',
  'materialPerParcel',
  'secondsPerParcel',
  'currency',
];

/** The report's groups as a file; amounts with two decimals. */
export function reportCsv({ groups, currency }: Report, language: Language): string {
  const each = (sum: number, count: number) => (count === 0 ? null : sum / count);
  return csvText(
    HEADER,
    groups.map((group) => {
      const { paid, ladder, carton, decisions, corrections, seconds } = group;
      return [
        group.key,
        group.name[language],
        group.parcels,
        group.orders,
        money(group.postage),
        money(paid.paid),
        paid.parcels,
        money(paid.paid - paid.postage),
        money(ladder.saved),
        ladder.parcels,
        money(carton.saved),
        carton.parcels,
        group.close,
        decisions['next-bracket'],
        decisions['as-is'],
        decisions.lightened,
        decisions['weighed-again'],
        corrections.parcels,
        corrections.meanGrams === null ? null : Math.round(corrections.meanGrams * 100) / 100,
        corrections.dearer,
        group.parcels === 0 ? null : money(group.material / group.parcels),
        Math.round(each(seconds.sum, seconds.parcels) ?? 0),
        currency,
      ];
    }),
  );
}
