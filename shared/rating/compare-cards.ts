import type { Mass } from '#shared/units/mass.ts';
import { plainMass } from './plain.ts';
import { inForce } from './dates.ts';
import { bracketOf } from './price.ts';
import { NOT_SERVED } from './rate-card.ts';
import type { PriceRule, Prices, RateCard, Service } from './rate-card.ts';
import type { Day } from './types.ts';

/** One price of two cards: what it was and what it becomes. null: that card has none there. */
export interface PriceChange {
  readonly service: string;
  /** "16 oz", a tier or a container */
  readonly row: string;
  /** null: every zone */
  readonly zone: string | null;
  /** minor units */
  readonly before: number | null;
  readonly after: number | null;
}

export interface CardDifference {
  readonly added: readonly string[];
  readonly removed: readonly string[];
  /** services whose way of pricing is another one, so that their rows cannot be held side by side */
  readonly otherRule: readonly string[];
  /** prices that differ, in the order of the cards */
  readonly changes: readonly PriceChange[];
  readonly unchanged: number;
}

/**
 * What differs between the table prices of two cards, each on its own day. Surcharges and discounts are not in it: they
 * depend on the parcel. Weight brackets are held against each other at every ceiling of either card.
 */
export function compareCards(before: RateCard, beforeDay: Day, after: RateCard, afterDay: Day): CardDifference {
  const old = rulesOn(before, beforeDay);
  const fresh = rulesOn(after, afterDay);
  const all: PriceChange[] = [];
  const otherRule: string[] = [];
  for (const [id, oldRule] of old) {
    const newRule = fresh.get(id);
    if (newRule === undefined) continue;
    if (newRule.rule !== oldRule.rule) otherRule.push(id);
    else all.push(...sideBySide(id, oldRule, newRule, after));
  }
  const changes = all.filter((change) => change.before !== change.after);
  return {
    added: [...fresh.keys()].filter((id) => !old.has(id)),
    removed: [...old.keys()].filter((id) => !fresh.has(id)),
    otherRule,
    changes,
    unchanged: all.length - changes.length,
  };
}

function rulesOn(card: RateCard, day: Day): ReadonlyMap<string, PriceRule> {
  const sold = (service: Service): PriceRule | undefined =>
    inForce(service, day) ? service.prices.find((rule) => inForce(rule, day)) : undefined;
  return new Map(
    card.services.flatMap((service) => {
      const rule = sold(service);
      return rule === undefined ? [] : [[service.id, rule] as const];
    }),
  );
}

interface Table {
  readonly rows: readonly string[];
  readonly at: (row: string) => Prices | undefined;
}

/** Rows are named as the new card names its masses. */
function sideBySide(service: string, old: PriceRule, fresh: PriceRule, after: RateCard): readonly PriceChange[] {
  const masses = [...new Set([...ceilings(old), ...ceilings(fresh)])].sort((a, b) => a - b);
  const [left, right] = [tableOf(old, masses, after), tableOf(fresh, masses, after)];
  const rows = [...new Set([...left.rows, ...right.rows])];
  const zones = old.zones === null && fresh.zones === null ? [null] : zonesOfEither(old, fresh);
  return rows.flatMap((row) =>
    zones.map((zone) => ({
      service,
      row,
      zone,
      before: priceIn(left.at(row), old, zone),
      after: priceIn(right.at(row), fresh, zone),
    })),
  );
}

function zonesOfEither(old: PriceRule, fresh: PriceRule): readonly string[] {
  return [...new Set([...(old.zones ?? []), ...(fresh.zones ?? [])])];
}

function priceIn(prices: Prices | undefined, rule: PriceRule, zone: string | null): number | null {
  const column = rule.zones === null ? 0 : rule.zones.indexOf(zone ?? '');
  const minor = prices?.[column] ?? NOT_SERVED;
  return minor === NOT_SERVED ? null : minor;
}

function ceilings(rule: PriceRule): readonly Mass[] {
  return rule.rule === 'weight-bracket' ? rule.brackets.map((bracket) => bracket.upTo) : [];
}

function tableOf(rule: PriceRule, masses: readonly Mass[], names: RateCard): Table {
  switch (rule.rule) {
    case 'weight-bracket': {
      const own = ceilings(rule);
      const byName = new Map(masses.map((mass) => [plainMass(mass, names.units.mass), mass]));
      return { rows: [...byName.keys()], at: (row) => rule.brackets[bracketOf(own, byName.get(row) ?? 0)]?.prices };
    }
    case 'flat-fee':
      return {
        rows: rule.fees.map((fee) => fee.container),
        at: (row) => rule.fees.find((fee) => fee.container === row)?.prices,
      };
    case 'cubic-box':
    case 'cubic-soft': {
      const tiers: readonly { readonly tier: string; readonly prices: Prices }[] = rule.tiers;
      return { rows: tiers.map(({ tier }) => tier), at: (row) => tiers.find(({ tier }) => tier === row)?.prices };
    }
  }
}
