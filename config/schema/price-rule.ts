import { z } from 'zod';
import { NOT_SERVED } from '#shared/rating/rate-card.ts';
import { compareVolumes } from '#shared/rating/volume.ts';
import { LENGTH_UNITS } from '#shared/units/length.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import { bracketPrices, prices } from './price.ts';
import { volume } from './postcodes.ts';
import { day, id, length, mass } from './quantities.ts';

const dates = { from: day.optional(), until: day.optional() };
const zones = z
  .array(z.string().min(1))
  .min(1)
  .refine((list) => new Set(list).size === list.length, 'a zone is named twice')
  .nullable()
  .default(null);

const sideRounding = z
  .strictObject({ mode: z.enum(['down', 'nearest', 'up']), step: length })
  .refine((one) => one.step > 0, { path: ['step'], message: 'expected a step above nothing' });

const dimensional = z.strictObject({
  divisor: z.int().positive(),
  length: z.enum(LENGTH_UNITS),
  mass: z.enum(MASS_UNITS),
  sides: sideRounding,
  above: z.strictObject({ volume, measured: z.enum(['raw', 'rounded']).default('rounded') }).optional(),
  roundUpTo: mass.refine((one) => one > 0, 'expected a mass above nothing'),
  nonRectangular: z.int().min(1).max(1000).optional(),
  ...dates,
});

type Context = z.core.$RefinementCtx;

/** Every row has one price per zone. */
function checkWidth(
  rule: { zones: string[] | null },
  rows: readonly { prices: number[] }[],
  name: string,
  context: Context,
): void {
  const width = rule.zones?.length ?? 1;
  for (const [index, row] of rows.entries()) {
    if (row.prices.length === width) continue;
    const message = `expected ${String(width)} prices, one per zone, found ${String(row.prices.length)}`;
    context.addIssue({ code: 'custom', path: [name, index, 'prices'], message });
  }
}

/** Rows go up, and their prices do not fall unless the card says that they may. */
function checkRows<Row extends { prices: number[] }>(
  rows: readonly Row[],
  rises: (before: Row, after: Row) => boolean,
  mayFall: boolean,
  name: string,
  context: Context,
): void {
  for (const [index, row] of rows.entries()) {
    const before = rows[index - 1];
    if (before === undefined) continue;
    if (!rises(before, row)) {
      context.addIssue({
        code: 'custom',
        path: [name, index, 'upTo'],
        message: 'expected more than in the row before',
      });
    }
    for (const [column, price] of row.prices.entries()) {
      const last = before.prices[column] ?? 0;
      if (last === NOT_SERVED && price !== NOT_SERVED) {
        const message = `expected none: this zone ends in the row before, found ${String(price / 100)}`;
        context.addIssue({ code: 'custom', path: [name, index, 'prices', column], message });
      }
      if (mayFall || price === NOT_SERVED || price >= last) continue;
      const message = 'the price falls below that of the row before; "fallingPrices: true" accepts it';
      context.addIssue({ code: 'custom', path: [name, index, 'prices', column], message });
    }
  }
}

const weightBracket = z
  .strictObject({
    rule: z.literal('weight-bracket'),
    zones,
    brackets: z
      .array(
        z.strictObject({ upTo: mass.refine((one) => one > 0, 'expected a mass above nothing'), prices: bracketPrices }),
      )
      .min(1),
    dimensional: z.array(dimensional).default([]),
    fallingPrices: z.boolean().default(false),
    ...dates,
  })
  .superRefine((rule, context) => {
    checkWidth(rule, rule.brackets, 'brackets', context);
    for (const [column, price] of (rule.brackets[0]?.prices ?? []).entries()) {
      if (price !== NOT_SERVED) continue;
      const message = 'expected a price: a zone has at least its first bracket, found none';
      context.addIssue({ code: 'custom', path: ['brackets', 0, 'prices', column], message });
    }
    checkRows(rule.brackets, (a, b) => b.upTo > a.upTo, rule.fallingPrices, 'brackets', context);
  });

const flatFee = z
  .strictObject({
    rule: z.literal('flat-fee'),
    zones,
    fees: z.array(z.strictObject({ container: id, prices })).min(1),
    ...dates,
  })
  .superRefine((rule, context) => {
    checkWidth(rule, rule.fees, 'fees', context);
    for (const [index, fee] of rule.fees.entries()) {
      if (rule.fees.findIndex((other) => other.container === fee.container) === index) continue;
      const message = `the container "${fee.container}" has a fee twice`;
      context.addIssue({ code: 'custom', path: ['fees', index, 'container'], message });
    }
  });

const cubicBox = z
  .strictObject({
    rule: z.literal('cubic-box'),
    zones,
    sides: sideRounding,
    tiers: z.array(z.strictObject({ tier: z.string().min(1), upTo: volume, prices })).min(1),
    ...dates,
  })
  .superRefine((rule, context) => {
    checkWidth(rule, rule.tiers, 'tiers', context);
    checkRows(rule.tiers, (a, b) => compareVolumes(b.upTo, a.upTo) > 0, false, 'tiers', context);
  });

const cubicSoft = z
  .strictObject({
    rule: z.literal('cubic-soft'),
    zones,
    sides: sideRounding,
    tiers: z.array(z.strictObject({ tier: z.string().min(1), upTo: length, prices })).min(1),
    ...dates,
  })
  .superRefine((rule, context) => {
    checkWidth(rule, rule.tiers, 'tiers', context);
    checkRows(rule.tiers, (a, b) => b.upTo > a.upTo, false, 'tiers', context);
  });

/** How a service's price comes about. */
export const priceRule = z.discriminatedUnion('rule', [weightBracket, flatFee, cubicBox, cubicSoft]);
