import type { Mass } from '#shared/units/mass.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import { adjusted } from './adjust.ts';
import type { Adjustment } from './adjustment.ts';
import { cubicCount } from './cubic.ts';
import { plainLength, plainMass, plainVolume } from './plain.ts';
import type { Settled } from './price.ts';
import { basePrice, bracketOf } from './price.ts';
import { roundSide } from './rounding.ts';
import type { Offer, Reason } from './types.ts';
import { formatVolume } from './volume.ts';

/** Why a settled service costs what it does at a mass: card, zone, rule with its rounding, then each change to the price. */
export function offerReasons(settled: Settled, mass: Mass, zoneHow: Reason): readonly Reason[] {
  const { service } = settled;
  const { card, rule } = service;
  const from = rule.from ?? service.service.from ?? card.from;
  return [
    { code: 'card', values: { ...named(card.name), from } },
    zoneHow,
    ...ruleReasons(settled, mass),
    ...changeReasons(settled, mass),
  ];
}

function named(name: { readonly en: string; readonly es: string }): Readonly<Record<string, string>> {
  return { 'name.en': name.en, 'name.es': name.es };
}

function ruleReasons(settled: Settled, mass: Mass): readonly Reason[] {
  const { service, row } = settled;
  const { card, rule } = service;
  const { measures } = settled.at;
  const price = formatMoney(money(basePrice(settled, mass), card.currency));
  const sides = roundedSides(settled);
  switch (rule.rule) {
    case 'weight-bracket':
      return [...dimensionalReasons(settled, mass), bracketReason(settled, mass, price)];
    case 'flat-fee':
      return [{ code: 'flat-fee', values: { container: rule.fees[row]?.container ?? '', price } }];
    case 'cubic-box': {
      const tier = rule.tiers[row];
      const volume = plainVolume(Number(cubicCount(rule, measures)), rule.sides.step, card.units.length);
      const upTo = tier === undefined ? '' : formatVolume(tier.upTo);
      return [sides, { code: 'cubic-box', values: { volume, tier: tier?.tier ?? '', upTo, price } }];
    }
    case 'cubic-soft': {
      const tier = rule.tiers[row];
      const sum = plainLength(Number(cubicCount(rule, measures)) * rule.sides.step, card.units.length);
      const upTo = plainLength(tier?.upTo ?? 0, card.units.length);
      return [sides, { code: 'cubic-soft', values: { sum, tier: tier?.tier ?? '', upTo, price } }];
    }
  }
}

/** "each side down to 1/4 in: 12 x 9 x 1 1/2 in" */
function roundedSides(settled: Settled): Reason {
  const { service, at } = settled;
  const { measures } = at;
  const unit = service.card.units.length;
  const { rounding } = service;
  if (rounding === null) return { code: 'sides', values: {} };
  const soft = service.rule.rule === 'cubic-soft';
  const raw = soft ? [measures.flatLength, measures.flatWidth] : [measures.longest, measures.middle, measures.shortest];
  const sides = raw.map((side) => plainLength(roundSide(side, rounding), unit)).join(' × ');
  return { code: `sides-${rounding.mode}`, values: { step: plainLength(rounding.step, unit), sides } };
}

function dimensionalReasons(settled: Settled, mass: Mass): readonly Reason[] {
  const factor = settled.service.dimensional;
  if (factor === null) return [];
  const unit = settled.service.card.units.mass;
  if (settled.floor === 0) {
    const above = factor.rule.above;
    return above === undefined ? [] : [{ code: 'dimensional-exempt', values: { volume: formatVolume(above.volume) } }];
  }
  const values = {
    divisor: String(factor.rule.divisor),
    step: plainMass(factor.rule.roundUpTo, factor.rule.mass),
    billed: plainMass(settled.floor, factor.rule.mass),
    mass: plainMass(mass, unit),
  };
  return [roundedSides(settled), { code: settled.floor > mass ? 'dimensional' : 'dimensional-below', values }];
}

function bracketReason(settled: Settled, mass: Mass, price: string): Reason {
  const { service, floor } = settled;
  const unit = service.card.units.mass;
  const billed = mass > floor ? mass : floor;
  const row = bracketOf(service.ceilings, billed);
  const upTo = plainMass((service.ceilings[row] ?? 0) as Mass, unit);
  return { code: 'weight-bracket', values: { mass: plainMass(billed, unit), upTo, price } };
}

interface Change {
  readonly adjustment: Adjustment;
  /** minor units, negative where taken off */
  readonly minor: number;
  readonly base: number;
}

function changesOf({ service, at }: Settled, base: number, mass: Mass): readonly Change[] {
  const changes: Change[] = [];
  adjusted(service, base, mass, at, (adjustment, minor, of) => {
    changes.push({ adjustment, minor: service.discounts.includes(adjustment) ? -minor : minor, base: of });
  });
  return changes;
}

/** Discounts as negative amounts, then surcharges. */
export function priceChanges(settled: Settled, mass: Mass): Offer['surcharges'] {
  const { currency } = settled.service.card;
  return changesOf(settled, basePrice(settled, mass), mass).map(({ adjustment, minor }) => ({
    name: adjustment.id,
    label: adjustment.name,
    price: money(minor, currency),
  }));
}

function changeReasons(settled: Settled, mass: Mass): readonly Reason[] {
  const { currency } = settled.service.card;
  const words = (minor: number): string => formatMoney(money(minor, currency));
  return changesOf(settled, basePrice(settled, mass), mass).map(({ adjustment, minor, base }) => {
    const { name, amount } = adjustment;
    const code = settled.service.discounts.includes(adjustment) ? 'discount' : 'surcharge';
    const values = { ...named(name), price: words(minor) };
    if (amount.kind === 'amount') return { code, values };
    const perCent = String(amount.millionths / 10_000);
    const how = { perCent, base: words(base), rounding: `round-${amount.mode}`, step: words(amount.step) };
    return { code: `${code}-per-cent`, values: { ...values, ...how } };
  });
}
