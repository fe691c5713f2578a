import { z } from 'zod';
import { ORDER_FIELDS, PIECE_FIELDS } from '#shared/shop/import-fields.ts';
import { clockTime } from './shop.ts';

const names = z.array(z.string().min(1));

function aliasesFor<Field extends string>(fields: readonly Field[]) {
  const shape = Object.fromEntries(fields.map((field) => [field, names.optional()]));
  return z.strictObject(shape as Record<Field, z.ZodOptional<typeof names>>);
}

/** imports.yaml */
export const importsFile = z.strictObject({
  /** how a day is written, such as MM/DD/YYYY; ISO days are always taken */
  days: z.array(
    z
      .string()
      .refine(
        (pattern) => /^[^A-Za-z]*(YYYY|YY|MM?|DD?)[./ -](MM?|DD?|YYYY)[./ -](YYYY|YY|MM?|DD?)$/.test(pattern),
        'expected an order of day, month and year such as MM/DD/YYYY or DD.MM.YYYY',
      ),
  ),
  /** when a ship-by day has no time */
  shipByTime: clockTime,
  decimalMark: z.enum(['point', 'comma']),
  /** whose files are taken by themselves; in the data folder where it is no whole path */
  watchedFolder: z.string().trim().min(1).optional(),
  pieces: aliasesFor(PIECE_FIELDS),
  orders: aliasesFor(ORDER_FIELDS),
});
