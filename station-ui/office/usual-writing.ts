import type { ShopFacts } from '#shared/wire/first-run.ts';

/** How days and decimals are usually written in a country. */
export function usualIn(country: string): Pick<ShopFacts, 'days' | 'decimals'> {
  try {
    const { language } = new Intl.Locale('und', { region: country }).maximize();
    const locale = `${language}-${country}`;
    const order = new Intl.DateTimeFormat(locale).formatToParts(0).map(({ type }) => type);
    const mark = new Intl.NumberFormat(locale).formatToParts(1.5).find(({ type }) => type === 'decimal')?.value;
    return {
      days: order.indexOf('month') < order.indexOf('day') && order[0] !== 'year' ? 'month-first' : 'day-first',
      decimals: mark === ',' ? 'comma' : 'point',
    };
  } catch {
    return { days: 'month-first', decimals: 'point' };
  }
}
