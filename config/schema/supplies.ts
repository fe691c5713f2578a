import { z } from 'zod';
import { amount as money } from './shop.ts';
import { id, localised, mass } from './quantities.ts';
import { writtenAs } from './written-as.ts';
import { CONTAINER_TYPES, type Container } from '#shared/fitting/types.ts';
import { parseAmount } from '#shared/supplies/amounts.ts';
import type { StockRules, Supply, SupplyUnit } from '#shared/supplies/types.ts';
import { parseMoney } from '#shared/units/money.ts';
import { UnitError } from '#shared/units/unit-error.ts';

const notNegative = mass.refine((value) => value >= 0, 'expected a mass of zero or more');

interface Amount {
  readonly unit: SupplyUnit;
  readonly amount: number;
}

/** A number counts pieces; a text with a unit is a length: 100, "66 m". */
const amountOf = z
  .union([z.number(), z.string()], 'expected a number of pieces such as 100, or a length such as 66 m')
  .transform((written, context): Amount => {
    const unit = typeof written === 'number' ? 'piece' : 'length';
    try {
      if (unit === 'length' && !/[a-z]/i.test(String(written))) throw new UnitError('unknown-unit', NO_UNIT(written));
      return { unit, amount: parseAmount(String(written), unit) };
    } catch (error) {
      if (!(error instanceof UnitError)) throw error;
      context.addIssue({ code: 'custom', message: error.message });
      return z.NEVER;
    }
  })
  .register(writtenAs, { as: 'amount' });
const NO_UNIT = (written: unknown) =>
  `amount: expected a length with its unit such as 66 m, found "${String(written)}"`;

/** A guess of what a day takes may be a part of a piece. */
const perDay = z
  .union([
    z
      .number()
      .nonnegative()
      .transform((amount): Amount => ({ unit: 'piece', amount })),
    amountOf,
  ])
  .register(writtenAs, { as: 'amount' });

const use = z.strictObject({
  each: z.enum(['parcel', 'piece']),
  amount: amountOf,
  types: z.array(z.enum(CONTAINER_TYPES)).min(1).optional(),
  containers: z.array(id).min(1).optional(),
  wraps: z.array(id).min(1).optional(),
});

const supply = z
  .strictObject({
    name: localised.optional(),
    container: id.optional(),
    pack: amountOf.refine(({ amount }) => amount > 0, 'expected more than 0 in a pack'),
    packCost: money.optional(),
    leadTime: z.strictObject({ days: z.number().nonnegative(), spread: z.number().nonnegative().default(0) }),
    perDay,
    uses: z.array(use).default([]),
  })
  .superRefine((each, context) => {
    const complain = (path: (string | number)[], message: string) =>
      context.addIssue({ code: 'custom', path, message });
    if (each.name === undefined && each.container === undefined) complain(['name'], 'expected a name, found none');
    const what = each.pack.unit === 'piece' ? 'a number of pieces, as the pack is' : 'a length, as the pack is';
    if (each.perDay.unit !== each.pack.unit) complain(['perDay'], `expected ${what}`);
    for (const [index, { amount }] of each.uses.entries()) {
      if (amount.unit !== each.pack.unit) complain(['uses', index, 'amount'], `expected ${what}`);
    }
    if (each.container !== undefined && each.pack.unit !== 'piece') {
      complain(['pack'], 'expected a number of pieces for a container');
    }
  });

/** supplies.yaml */
export const suppliesFile = z.strictObject({
  additions: z.array(z.strictObject({ name: z.string().min(1), mass: notNegative, plusMinus: notNegative })),
  outOfStock: z.array(id).optional(),
  stock: z
    .strictObject({
      /** in per cent */
      serviceLevel: z.number().min(50).max(99.99),
      demandDays: z.int().min(1).max(366),
      coverDays: z.int().min(0).max(366),
    })
    .optional(),
  supplies: z.record(id, supply).optional(),
});

export type SuppliesFile = z.output<typeof suppliesFile>;

const USUAL_RULES: StockRules = { serviceLevel: 0.95, demandDays: 28, coverDays: 30 };

export function toStockRules({ stock }: SuppliesFile): StockRules {
  if (stock === undefined) return USUAL_RULES;
  return { ...stock, serviceLevel: stock.serviceLevel / 100 };
}

/** @param currency the shop's, in which packs are paid */
export function toSupplies(
  { supplies = {} }: SuppliesFile,
  containers: ReadonlyMap<string, Container>,
  currency: string,
): readonly Supply[] {
  return Object.entries(supplies).map(([key, each]) => ({
    id: key,
    name: each.name ?? containers.get(each.container ?? '')?.name ?? { en: key, es: key },
    unit: each.pack.unit,
    ...(each.container === undefined ? {} : { container: each.container }),
    pack: each.pack.amount,
    ...(each.packCost === undefined ? {} : { packCost: parseMoney(each.packCost, currency) }),
    leadTime: { mean: each.leadTime.days, sd: each.leadTime.spread },
    perDay: each.perDay.amount,
    uses: each.uses.map(({ each: per, amount, types, containers: only, wraps }) => ({
      each: per,
      amount: amount.amount,
      ...(types === undefined ? {} : { types }),
      ...(only === undefined ? {} : { containers: only }),
      ...(wraps === undefined ? {} : { wraps }),
    })),
  }));
}
