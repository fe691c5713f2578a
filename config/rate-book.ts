import { checkBook } from '#shared/rating/check-book.ts';
import type { CheckedFolder } from './checked-folder.ts';
import type { Problem } from './config-error.ts';
import { toRateCard } from './schema/rate-card.ts';
import { describe } from './source-file.ts';

/** What the rate cards say together: ambiguous prices are problems; days and zones without a price are warnings. */
export function bookProblems({ rateCards, shop }: CheckedFolder): {
  readonly problems: readonly Problem[];
  readonly warnings: readonly Problem[];
} {
  const problems: Problem[] = [];
  const warnings: Problem[] = [];
  for (const found of checkBook(rateCards.map(({ value }) => toRateCard(value)))) {
    const source = rateCards[found.card]?.source;
    // Each card is held against the shop's currency already.
    if (source === undefined || (found.code === 'currency-mix' && shop !== undefined)) continue;
    const service = found.service === null ? '' : ` (service ${found.service})`;
    const problem = source.problem(
      found.path,
      EXPECTED[found.code],
      `${shown(source.at(found.path))}${found.message}${service}`,
    );
    (found.severity === 'error' ? problems : warnings).push(problem);
  }
  return { problems, warnings };
}

/** A day or a word is worth repeating; a whole list is not. */
function shown(value: unknown): string {
  return typeof value === 'string' ? `${describe(value)}: ` : '';
}

const EXPECTED: Readonly<Record<ReturnType<typeof checkBook>[number]['code'], string>> = {
  'currency-mix': 'one currency on every card',
  'service-twice': 'a service on one card at a time',
  'prices-overlap': 'one price in force on a day',
  'prices-gap': 'a price on every day of the service',
  'dimensional-overlap': 'one dimensional rule in force on a day',
  'largest-mass-gap': 'a largest mass on every day of a service without weight brackets',
  'zone-unreachable': 'a rule that gives the zone',
  'cheaper-when-larger': 'prices that do not fall as a parcel grows',
  'service-gap': 'a service sold on every day from its first card to its last',
  'dimensional-gap': 'dimensional rules that follow on one another',
  'adjustment-twice': 'a discount or surcharge in force once at a time',
  'adjustment-gap': 'the days of one discount or surcharge following on one another',
  'limit-twice': 'a limit in force once at a time',
  'limit-gap': 'the days of one limit following on one another',
  'no-mass-taken': 'a smallest mass that is not above the largest',
  'zones-gap': 'a rule for zones on every day of the card',
  'never-in-force': 'days within those of what it belongs to',
  'dates-reversed': 'a last day that is not before the first',
};
