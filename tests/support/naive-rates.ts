/**
 * Prices re-computed from the YAML itself, in exact fractions, one rule after the other as a card reads. It shares no code
 * with the product and is slow on purpose.
 */
import type { Fraction } from './fraction.ts';
import { atMost, compare, decimalFraction, floor, over, plus, quantity, rounded, times, whole } from './fraction.ts';

/* eslint-disable @typescript-eslint/no-explicit-any, @typescript-eslint/no-unsafe-member-access, @typescript-eslint/no-unsafe-assignment, @typescript-eslint/no-unsafe-argument, @typescript-eslint/no-unsafe-call, @typescript-eslint/no-unsafe-return -- the parsed YAML is read as it is, without the product's schema */

export interface NaiveParcel {
  readonly form: 'box' | 'soft' | 'roll';
  /** sides of a box; length, width and thickness of a soft pack; length and twice the diameter of a roll */
  readonly sides: readonly [string, string, string];
  readonly mass: string;
  readonly container?: string;
  readonly containerOwner?: string;
  readonly containerType?: string;
  readonly residential?: boolean;
}

export interface NaiveRoute {
  readonly zone?: string;
  readonly to?: { readonly country: string; readonly postcode: string };
  readonly miles?: number;
}

export interface NaivePrice {
  readonly minor: number;
  readonly tier: string | null;
}

export function naivePrices(
  cards: readonly any[],
  parcel: NaiveParcel,
  route: NaiveRoute,
  day: string,
): Map<string, NaivePrice> {
  const prices = new Map<string, NaivePrice>();
  for (const card of cards) {
    if (!on(card, day)) continue;
    const zone = zoneOf(card, route, day);
    if (zone === null) continue;
    for (const service of card.services) {
      if (!on(service, day)) continue;
      const price = priceOf(card, service, parcel, route, zone, day);
      if (price !== null) prices.set(service.id, price);
    }
  }
  return prices;
}

const on = (dates: any, day: string): boolean => (dates.from ?? '0000') <= day && day <= (dates.until ?? '9999');

function zoneOf(card: any, route: NaiveRoute, day: string): string | null {
  if (route.zone !== undefined) return route.zone;
  for (const rule of card.zones.filter((each: any) => on(each, day))) {
    if (rule.by === 'flat' && (rule.countries === undefined || rule.countries.includes(route.to?.country)))
      return rule.zone;
    if (rule.by === 'distance' && rule.country === route.to?.country) {
      return rule.bands.find((band: any) => band.upTo === undefined || (route.miles ?? 0) <= band.upTo)?.zone ?? null;
    }
  }
  return null;
}

function among(set: any, to: NaiveRoute['to']): boolean {
  if (to === undefined || (set.country !== undefined && set.country !== to.country)) return false;
  if (set.postcodes === undefined) return true;
  return set.postcodes.some((range: string) => {
    const [first = '', last = first] = range.split('-');
    // Counted out one by one rather than compared.
    for (let number = Number(first); number <= Number(last); number++) {
      if (to.postcode.startsWith(String(number).padStart(first.length, '0'))) return true;
    }
    return false;
  });
}

const descending = (sides: readonly Fraction[]): Fraction[] => [...sides].sort((a, b) => compare(b, a));
const product = (sides: readonly Fraction[]): Fraction => sides.reduce(times);

function measured(what: string, sides: readonly Fraction[]): Fraction {
  const [a, b, c] = sides as [Fraction, Fraction, Fraction];
  switch (what) {
    case 'longest-side':
      return a;
    case 'second-side':
      return b;
    case 'shortest-side':
      return c;
    case 'length-and-girth':
      return plus(a, times(whole(2), plus(b, c)));
    default:
      return plus(a, plus(b, c));
  }
}

function tooSmall(least: readonly string[], sides: readonly Fraction[], thicknessKnown: boolean): boolean {
  return least.some((text, index) => {
    if (index === 2 && !thicknessKnown) return false;
    return compare(sides[index]!, quantity(text)) < 0;
  });
}

function priceOf(
  card: any,
  service: any,
  parcel: NaiveParcel,
  route: NaiveRoute,
  zone: string,
  day: string,
): NaivePrice | null {
  const rule = service.prices.find((each: any) => on(each, day));
  if (rule === undefined) return null;
  const mass = quantity(parcel.mass);
  const raw = descending(parcel.sides.map(quantity));
  const thick = raw[2]!.top > 0n;

  if (parcel.containerOwner !== undefined && parcel.containerOwner !== card.carrier) return null;
  if (parcel.containerOwner !== undefined && rule.rule !== 'flat-fee' && service.containers === undefined) return null;
  if (service.containers !== undefined && !service.containers.includes(parcel.container)) return null;
  if (
    service.containerTypes !== undefined &&
    parcel.containerType !== undefined &&
    !service.containerTypes.includes(parcel.containerType)
  ) {
    return null;
  }
  if ((service.refuses ?? []).some((set: any) => among(set, route.to))) return null;

  const dimensional = (rule.dimensional ?? []).find((each: any) => on(each, day));
  const rounding = rule.sides ?? dimensional?.sides;
  const round = (side: Fraction): Fraction =>
    rounding === undefined ? side : rounded(side, quantity(rounding.step), rounding.mode);
  const chosen = (how: string | undefined): Fraction[] => (how === 'rounded' ? raw.map(round) : raw);

  for (const limit of service.limits ?? []) {
    if (!on(limit, day)) continue;
    if (limit.forms !== undefined && !limit.forms.includes(parcel.form)) continue;
    if (limit.limit === 'smallest-mass' && compare(mass, quantity(limit.least)) < 0) return null;
    if (limit.limit === 'length-and-two-diameters') {
      if (parcel.form !== 'roll') continue;
      const [length, diameter] = parcel.sides.map((side) =>
        limit.measured === 'rounded' ? round(quantity(side)) : quantity(side),
      );
      if (!atMost(plus(length!, times(whole(2), diameter!)), quantity(limit.most))) return null;
      continue;
    }
    if (limit.limit === 'largest-mass' && !atMost(mass, quantity(limit.most))) return null;
    if (limit.limit === 'smallest-size' && tooSmall(limit.least, raw, thick)) return null;
    if (limit.limit === 'largest-volume' && !atMost(product(raw), quantity(limit.most))) return null;
    if (limit.measured !== undefined || /side|girth/.test(limit.limit)) {
      if (!atMost(measured(limit.limit, chosen(limit.measured)), quantity(limit.most))) return null;
    }
  }

  const row = rowOf(rule, dimensional, parcel, mass, raw, round, thick);
  if (row === null) return null;
  const column = rule.zones === undefined ? 0 : rule.zones.indexOf(zone);
  const list = Array.isArray(row.prices) ? row.prices : [row.prices];
  const price = list[column];
  if (price === undefined) return null;
  const base = Math.round(Number(price) * 100);
  return { minor: changed(service, base, mass, raw, chosen, route, zone, parcel, day, thick), tier: row.tier ?? null };
}

function rowOf(
  rule: any,
  dimensional: any,
  parcel: NaiveParcel,
  mass: Fraction,
  raw: readonly Fraction[],
  round: (side: Fraction) => Fraction,
  thick: boolean,
): any {
  switch (rule.rule) {
    case 'flat-fee':
      return rule.fees.find((fee: any) => fee.container === parcel.container) ?? null;
    case 'cubic-soft': {
      if (parcel.form !== 'soft') return null;
      const sum = plus(round(quantity(parcel.sides[0])), round(quantity(parcel.sides[1])));
      return rule.tiers.find((tier: any) => atMost(sum, quantity(tier.upTo))) ?? null;
    }
    case 'cubic-box': {
      if (parcel.form !== 'box') return null;
      const volume = product(raw.map(round));
      return rule.tiers.find((tier: any) => atMost(volume, quantity(tier.upTo))) ?? null;
    }
    default: {
      if (dimensional !== undefined && !thick) return null;
      const billed = dimensional === undefined ? mass : larger(mass, volumeMass(dimensional, parcel, raw, round));
      return rule.brackets.find((bracket: any) => atMost(billed, quantity(bracket.upTo))) ?? null;
    }
  }
}

const larger = (a: Fraction, b: Fraction): Fraction => (compare(a, b) >= 0 ? a : b);

function volumeMass(
  dimensional: any,
  parcel: NaiveParcel,
  raw: readonly Fraction[],
  round: (side: Fraction) => Fraction,
): Fraction {
  const sides = raw.map(round);
  if (dimensional.above !== undefined) {
    const volume = product(dimensional.above.measured === 'raw' ? raw : sides);
    if (atMost(volume, quantity(dimensional.above.volume))) return whole(0);
  }
  const unit = quantity(`1 ${String(dimensional.length)}`);
  let counted = over(product(sides), product([unit, unit, unit]));
  if (parcel.form !== 'box') counted = times(counted, over(whole(dimensional.nonRectangular ?? 1000), whole(1000)));
  const exact = times(over(counted, whole(dimensional.divisor)), quantity(`1 ${String(dimensional.mass)}`));
  return rounded(exact, quantity(dimensional.roundUpTo), 'up');
}

function changed(
  service: any,
  base: number,
  mass: Fraction,
  raw: readonly Fraction[],
  chosen: (how: string | undefined) => Fraction[],
  route: NaiveRoute,
  zone: string,
  parcel: NaiveParcel,
  day: string,
  thick: boolean,
): number {
  const holds = (condition: any): boolean => {
    switch (condition.when) {
      case 'always':
        return true;
      case 'volume':
        return compare(product(raw), quantity(condition.over)) > 0;
      case 'mass':
        return compare(mass, quantity(condition.over)) > 0;
      case 'smaller-than':
        return tooSmall(condition.least, raw, thick);
      case 'form':
        return parcel.form === condition.form;
      case 'residential':
        return route.to !== undefined && parcel.residential === true;
      case 'destination':
        return condition.to.some((set: any) => among(set, route.to));
      case 'zone':
        return condition.zones.includes(zone);
      default:
        return compare(measured(condition.when, chosen(condition.measured)), quantity(condition.over)) > 0;
    }
  };
  const applying = (list: any[] | undefined): any[] =>
    (list ?? []).filter((each) => on(each, day) && (each.when ?? [{ when: 'always' }]).some(holds));
  const worth = (amount: any, price: number, total: number): number => {
    if (amount.kind === 'amount') return Math.round(Number(amount.price) * 100);
    const exact = over(
      times(whole(amount.of === 'total' ? total : price), decimalFraction(String(amount.perCent))),
      whole(100),
    );
    const step = whole(amount.step === undefined ? 1 : Math.round(Number(amount.step) * 100));
    return Number(floor(rounded(exact, step, amount.mode ?? 'nearest')));
  };
  const largest = (one: any, all: any[], price: number, total: number): boolean => {
    if (one.group === undefined) return true;
    const rivals = all.filter((each) => each.group === one.group);
    const most = Math.max(...rivals.map((each) => worth(each.amount, price, total)));
    return rivals.find((each) => worth(each.amount, price, total) === most) === one;
  };

  let price = base;
  const discounts = applying(service.discounts);
  for (const discount of discounts) {
    if (largest(discount, discounts, price, price)) price = Math.max(0, price - worth(discount.amount, price, price));
  }
  let total = price;
  const surcharges = applying(service.surcharges);
  for (const surcharge of surcharges) {
    if (largest(surcharge, surcharges, price, total)) total += worth(surcharge.amount, price, total);
  }
  return total;
}
