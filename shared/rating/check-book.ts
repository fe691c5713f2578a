import type { Coverage, Span } from './coverage.ts';
import { coverage } from './coverage.ts';
import type { Dates } from './dates.ts';
import type { RateCard, Service, ZoneRule } from './rate-card.ts';

/** Something about the cards together, or about their dates, that the owner should know. */
export interface BookProblem {
  /** an error makes prices ambiguous or wrong; a warning leaves days or zones without a price */
  readonly severity: 'error' | 'warning';
  readonly carrier: string;
  readonly service: string | null;
  readonly code:
    | 'currency-mix'
    | 'service-twice'
    | 'prices-overlap'
    | 'prices-gap'
    | 'dimensional-overlap'
    | 'largest-mass-gap'
    | 'zone-unreachable'
    | 'cheaper-when-larger'
    | 'dates-reversed';
  readonly message: string;
}

/** Overlapping or missing ranges of days, one service on two cards at once, mixed currencies, zones that no route reaches. */
export function checkBook(cards: readonly RateCard[]): readonly BookProblem[] {
  return [...currencyMix(cards), ...servicesTwice(cards), ...cards.flatMap(checkCard)];
}

function words(span: Span): string {
  if (span.from === null) return span.until === null ? 'on every day' : `until ${span.until}`;
  return span.until === null ? `from ${span.from}` : `from ${span.from} until ${span.until}`;
}

function currencyMix(cards: readonly RateCard[]): readonly BookProblem[] {
  const first = cards[0];
  return cards
    .filter((card) => first !== undefined && card.currency !== first.currency)
    .map((card) => ({
      severity: 'error',
      carrier: card.carrier,
      service: null,
      code: 'currency-mix',
      message: `currency: expected ${first?.currency ?? ''} as on the card of ${first?.carrier ?? ''}, found ${card.currency}`,
    }));
}

/** The days on which both are in force. */
function both(one: Dates, other: Dates): Dates {
  const from = [one.from, other.from]
    .filter((day) => day !== undefined)
    .sort()
    .at(-1);
  const until = [one.until, other.until].filter((day) => day !== undefined).sort()[0];
  return { ...(from === undefined ? {} : { from }), ...(until === undefined ? {} : { until }) };
}

function servicesTwice(cards: readonly RateCard[]): readonly BookProblem[] {
  const all = cards.flatMap((card) => card.services.map((service) => ({ card, service, dates: both(card, service) })));
  const problems: BookProblem[] = [];
  for (const id of new Set(all.map(({ service }) => service.id))) {
    const same = all.filter(({ service }) => service.id === id);
    const dates = same.map((each) => each.dates);
    for (const { first, second, span } of coverage(dates, {}).overlaps) {
      const [one, other] = [same[first]?.card.carrier ?? '', same[second]?.card.carrier ?? ''];
      const message = `the service "${id}" of ${other} is also on a card of ${one} ${words(span)}`;
      problems.push({ severity: 'error', carrier: other, service: id, code: 'service-twice', message });
    }
  }
  return problems;
}

function checkCard(card: RateCard): readonly BookProblem[] {
  const problems: BookProblem[] = reversed(card, card, null, 'the card');
  const reachable = new Set(card.zones.flatMap(zonesOf));
  for (const service of card.services) {
    const at = { carrier: card.carrier, service: service.id };
    problems.push(...reversed(card, service, service.id, 'the service'));
    const window = both(card, service);
    const { overlaps, gaps } = coverage(service.prices, window);
    for (const { first, second, span } of overlaps) {
      const message = `prices ${String(first + 1)} and ${String(second + 1)} are both in force ${words(span)}`;
      problems.push({ severity: 'error', ...at, code: 'prices-overlap', message });
    }
    for (const gap of gaps) {
      problems.push({ severity: 'warning', ...at, code: 'prices-gap', message: `no price is in force ${words(gap)}` });
    }
    problems.push(...cheaperWhenLarger(service).map((message) => larger(at, message)));
    for (const rule of service.prices) {
      problems.push(...reversed(card, rule, service.id, 'a price'));
      for (const zone of (rule.zones ?? []).filter((each) => !reachable.has(each))) {
        const message = `zone "${zone}" has prices, but no zone rule of the card gives it`;
        problems.push({ severity: 'warning', ...at, code: 'zone-unreachable', message });
      }
      if (rule.rule === 'weight-bracket') {
        for (const { span } of coverage(rule.dimensional, window).overlaps) {
          const message = `two dimensional rules are in force ${words(span)}`;
          problems.push({ severity: 'error', ...at, code: 'dimensional-overlap', message });
        }
      } else problems.push(...massGaps(service, both(rule, window)).map((each) => ({ ...at, ...each })));
    }
  }
  return problems;
}

function larger(at: Pick<BookProblem, 'carrier' | 'service'>, message: string): BookProblem {
  return { severity: 'error', ...at, code: 'cheaper-when-larger', message };
}

const SIZES: ReadonlySet<string> = new Set([
  'longest-side',
  'second-side',
  'shortest-side',
  'length-and-girth',
  'volume',
]);

/** Planning and the next edge rely on it that no parcel becomes cheaper by growing. */
function cheaperWhenLarger(service: Service): readonly string[] {
  const discounts = service.discounts
    .filter((discount) => discount.when.some((condition) => SIZES.has(condition.when)))
    .map((discount) => `the discount "${discount.id}" is for parcels over a size: a larger parcel would be cheaper`);
  const falling = service.prices.some(
    (rule) => rule.rule === 'weight-bracket' && rule.fallingPrices && rule.dimensional.length > 0,
  );
  const both = 'prices fall as the mass grows and volume counts as mass: a larger parcel would be cheaper';
  return falling ? [...discounts, both] : discounts;
}

/** A rule without weight brackets needs a largest mass on each of its days. */
function massGaps(service: Service, window: Dates): readonly Pick<BookProblem, 'severity' | 'code' | 'message'>[] {
  const { gaps }: Coverage = coverage(
    service.limits.filter((each) => each.limit === 'largest-mass'),
    window,
  );
  return gaps.map((gap) => ({
    severity: 'error',
    code: 'largest-mass-gap',
    message: `no limit "largest-mass" is in force ${words(gap)}`,
  }));
}

function reversed(card: RateCard, dates: Dates, service: string | null, what: string): BookProblem[] {
  if (dates.from === undefined || dates.until === undefined || dates.from <= dates.until) return [];
  const message = `${what} ends on ${dates.until}, before it begins on ${dates.from}`;
  return [{ severity: 'error', carrier: card.carrier, service, code: 'dates-reversed', message }];
}

function zonesOf(rule: ZoneRule): readonly string[] {
  switch (rule.by) {
    case 'flat':
      return [rule.zone];
    case 'distance':
      return rule.bands.map((band) => band.zone);
    case 'chart':
      return rule.rows.map((row) => row.zone);
  }
}
