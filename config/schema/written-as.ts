import { z } from 'zod';

/** What a text of the shop's files stands for, so that a form can say how it is written. */
export type WrittenAs =
  | 'mass'
  | 'length'
  | 'money'
  | 'day'
  | 'time'
  | 'volume'
  | 'fraction'
  | 'postcodes'
  // a number, or a text
  | 'amount'
  | 'per-cent'
  | 'price'
  // one of these, or a list of them
  | 'prices';

/** What a schema's text stands for; kept by every refinement of that schema. */
export const writtenAs = z.registry<{ readonly as: WrittenAs }>();
