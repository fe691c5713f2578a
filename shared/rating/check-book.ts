import type { Coverage, Span } from './coverage.ts';
import { coverage, innerGaps } from './coverage.ts';
import type { Dates } from './dates.ts';
import type { RateCard, Service, ZoneRule } from './rate-card.ts';

/** Something about the cards together, or about their dates, that the owner should know. */
export interface BookProblem {
  /** an error makes prices ambiguous or wrong; a warning leaves days or zones without a price */
  readonly severity: 'error' | 'warning';
  /** place of the card among those that were checked, and of what is wrong on it */
  readonly card: number;
  readonly path: readonly (string | number)[];
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
    | 'service-gap'
    | 'dimensional-gap'
    | 'adjustment-twice'
    | 'adjustment-gap'
    | 'limit-twice'
    | 'limit-gap'
    | 'no-mass-taken'
    | 'zones-gap'
    | 'never-in-force'
    | 'dates-reversed';
  readonly message: string;
}

/** Overlapping or missing ranges of days, one service on two cards at once, mixed currencies, zones that no route reaches. */
export function checkBook(cards: readonly RateCard[]): readonly BookProblem[] {
  return [...currencyMix(cards), ...servicesTwice(cards), ...cards.flatMap((card, index) => checkCard(card, index))];
}

function words(span: Span): string {
  if (span.from === null) return span.until === null ? 'on every day' : `until ${span.until}`;
  return span.until === null ? `from ${span.from}` : `from ${span.from} until ${span.until}`;
}

function currencyMix(cards: readonly RateCard[]): readonly BookProblem[] {
  const first = cards[0];
  return cards.flatMap((card, index) => {
    if (first === undefined || card.currency === first.currency) return [];
    const message = `currency: expected ${first.currency} as on the card of ${first.carrier}, found ${card.currency}`;
    const at = { card: index, path: ['currency'], carrier: card.carrier, service: null };
    return [{ severity: 'error', ...at, code: 'currency-mix', message }];
  });
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
  const all = cards.flatMap((card, index) =>
    card.services.map((service, place) => ({
      card,
      service,
      dates: both(card, service),
      at: { card: index, path: ['services', place] },
    })),
  );
  const problems: BookProblem[] = [];
  for (const id of new Set(all.map(({ service }) => service.id))) {
    const same = all.filter(({ service }) => service.id === id);
    const dates = same.map((each) => each.dates);
    for (const { first, second, span } of coverage(dates, {}).overlaps) {
      const [one, other] = [same[first]?.card.carrier ?? '', same[second]?.card.carrier ?? ''];
      const message = `the service "${id}" of ${other} is also on a card of ${one} ${words(span)}`;
      const at = same[second]?.at ?? { card: 0, path: [] };
      problems.push({ severity: 'error', ...at, carrier: other, service: id, code: 'service-twice', message });
    }
    const last = same.at(-1);
    for (const gap of last === undefined ? [] : innerGaps(dates)) {
      const message = `no card sells the service "${id}" ${words(gap)}`;
      const whose = { carrier: last?.card.carrier ?? '', service: id };
      problems.push({
        severity: 'warning',
        ...(last?.at ?? { card: 0, path: [] }),
        ...whose,
        code: 'service-gap',
        message,
      });
    }
  }
  return problems;
}

function checkCard(card: RateCard, index: number): readonly BookProblem[] {
  const whole: Where = { card: index, path: [], carrier: card.carrier, service: null };
  const problems: BookProblem[] = reversed(card, whole, 'the card');
  // Nothing on it is in force on any day: that need not be said of each part.
  if (problems.length > 0) return problems;
  const reachable = new Set(card.zones.flatMap(zonesOf));
  for (const [place, rule] of card.zones.entries()) {
    problems.push(...ownDates(rule, card, below(whole, 'zones', place), 'a rule for zones'));
  }
  for (const gap of card.zones.length === 0 ? [] : coverage(card.zones, card).gaps) {
    const message = `no rule for zones is in force ${words(gap)}`;
    problems.push({ severity: 'warning', ...below(whole, 'zones'), code: 'zones-gap', message });
  }
  for (const [place, service] of card.services.entries()) {
    const at: Where = { ...whole, path: ['services', place], service: service.id };
    problems.push(...ownDates(service, card, at, 'the service'));
    const window = both(card, service);
    if (window.from !== undefined && window.until !== undefined && window.from > window.until) continue;
    problems.push(...checkParts(service, window, at));
    const { overlaps, gaps } = coverage(service.prices, window);
    for (const { first, second, span } of overlaps) {
      const message = `prices ${String(first + 1)} and ${String(second + 1)} are both in force ${words(span)}`;
      problems.push({ severity: 'error', ...below(at, 'prices', second), code: 'prices-overlap', message });
    }
    for (const gap of gaps) {
      const message = `no price is in force ${words(gap)}`;
      problems.push({ severity: 'warning', ...below(at, 'prices'), code: 'prices-gap', message });
    }
    for (const message of cheaperWhenLarger(service)) {
      problems.push({ severity: 'error', ...at, code: 'cheaper-when-larger', message });
    }
    for (const [ruleIndex, rule] of service.prices.entries()) {
      const inRule = below(at, 'prices', ruleIndex);
      problems.push(...ownDates(rule, window, inRule, 'a price'));
      for (const zone of (rule.zones ?? []).filter((each) => !reachable.has(each))) {
        const message = `zone "${zone}" has prices, but no zone rule of the card gives it`;
        problems.push({ severity: 'warning', ...below(inRule, 'zones'), code: 'zone-unreachable', message });
      }
      if (rule.rule === 'weight-bracket') {
        for (const { span } of coverage(rule.dimensional, window).overlaps) {
          const message = `two dimensional rules are in force ${words(span)}`;
          problems.push({ severity: 'error', ...below(inRule, 'dimensional'), code: 'dimensional-overlap', message });
        }
        for (const gap of innerGaps(rule.dimensional)) {
          const message = `no dimensional rule is in force ${words(gap)}`;
          problems.push({ severity: 'warning', ...below(inRule, 'dimensional'), code: 'dimensional-gap', message });
        }
        for (const [index, each] of rule.dimensional.entries()) {
          problems.push(
            ...ownDates(each, both(rule, window), below(inRule, 'dimensional', index), 'a dimensional rule'),
          );
        }
      } else {
        const limits = below(at, 'limits');
        problems.push(...massGaps(service, both(rule, window)).map((each) => ({ ...limits, ...each })));
      }
    }
  }
  return problems;
}

type Where = Pick<BookProblem, 'card' | 'path' | 'carrier' | 'service'>;

function below(where: Where, ...parts: readonly (string | number)[]): Where {
  return { ...where, path: [...where.path, ...parts] };
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

function reversed(dates: Dates, where: Where, what: string): BookProblem[] {
  if (dates.from === undefined || dates.until === undefined || dates.from <= dates.until) return [];
  const message = `${what} ends on ${dates.until}, before it begins on ${dates.from}`;
  return [{ severity: 'error', ...below(where, 'until'), code: 'dates-reversed', message }];
}

/** Dates that are reversed, or that lie wholly outside those of what they belong to. */
function ownDates(dates: Dates, around: Dates, where: Where, what: string): BookProblem[] {
  const wrong = reversed(dates, where, what);
  if (wrong.length > 0) return wrong;
  const { from, until } = both(around, dates);
  if (from === undefined || until === undefined || from <= until) return [];
  const message = `${what} is on no day in force: ${words({ from: dates.from ?? null, until: dates.until ?? null })}`;
  return [{ severity: 'warning', ...where, code: 'never-in-force', message }];
}

/** Those that share a key, each with its place. */
function alike<Part>(
  parts: readonly Part[],
  keyOf: (part: Part) => string,
): readonly { part: Part; place: number }[][] {
  const groups = new Map<string, { part: Part; place: number }[]>();
  for (const [place, part] of parts.entries()) {
    const group = groups.get(keyOf(part));
    if (group === undefined) groups.set(keyOf(part), [{ part, place }]);
    else group.push({ part, place });
  }
  return [...groups.values()];
}

/** Dates of what stands beside the prices: limits, discounts and surcharges. */
function checkParts(service: Service, window: Dates, at: Where): readonly BookProblem[] {
  const problems: BookProblem[] = [];
  for (const name of ['discounts', 'surcharges'] as const) {
    const what = name === 'discounts' ? 'a discount' : 'a surcharge';
    for (const [place, part] of service[name].entries()) {
      problems.push(...ownDates(part, window, below(at, name, place), what));
    }
    for (const group of alike(service[name], ({ id }) => id)) {
      const [{ part } = { part: { id: '' } }] = group;
      const dates = group.map((each) => each.part);
      for (const { second, span } of coverage(dates, {}).overlaps) {
        const message = `${what} "${part.id}" is in force twice ${words(span)}`;
        const where = below(at, name, group[second]?.place ?? 0);
        problems.push({ severity: 'error', ...where, code: 'adjustment-twice', message });
      }
      for (const gap of innerGaps(dates)) {
        const message = `${what} "${part.id}" is not in force ${words(gap)}`;
        problems.push({ severity: 'warning', ...below(at, name), code: 'adjustment-gap', message });
      }
    }
  }
  for (const [place, part] of service.limits.entries()) {
    problems.push(...ownDates(part, window, below(at, 'limits', place), 'a limit'));
  }
  for (const group of alike(service.limits, limitKey)) {
    const dates = group.map((each) => each.part);
    const kind = dates[0]?.limit ?? '';
    for (const { second, span } of coverage(dates, {}).overlaps) {
      const message = `the limit "${kind}" is in force twice ${words(span)}: the narrower counts`;
      const where = below(at, 'limits', group[second]?.place ?? 0);
      problems.push({ severity: 'warning', ...where, code: 'limit-twice', message });
    }
    for (const gap of innerGaps(dates)) {
      const message = `the limit "${kind}" is not in force ${words(gap)}`;
      problems.push({ severity: 'warning', ...below(at, 'limits'), code: 'limit-gap', message });
    }
  }
  return [...problems, ...noMassTaken(service, at)];
}

/** Limits of one key say the same thing, so that one at a time is meant. */
function limitKey(limit: Service['limits'][number]): string {
  const forms = 'forms' in limit ? (limit.forms ?? []).join() : '';
  return `${limit.limit} ${forms} ${'measured' in limit ? limit.measured : ''}`;
}

function noMassTaken(service: Service, at: Where): readonly BookProblem[] {
  return service.limits.flatMap((smallest, place): BookProblem[] => {
    if (smallest.limit !== 'smallest-mass') return [];
    const above = service.limits.some((largest) => {
      if (largest.limit !== 'largest-mass' || largest.most >= smallest.least) return false;
      const { from, until } = both(smallest, largest);
      return from === undefined || until === undefined || from <= until;
    });
    const message = 'the smallest mass is above the largest: no mass is taken';
    return above ? [{ severity: 'error', ...below(at, 'limits', place), code: 'no-mass-taken', message }] : [];
  });
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
