import { z } from 'zod';

/** What a text of the shop's files stands for, so that a form can say how it is written. */
export type WrittenAs = 'mass' | 'length' | 'money' | 'day' | 'time';

/** What a schema's text stands for; kept by every refinement of that schema. */
export const writtenAs = z.registry<{ readonly as: WrittenAs }>();
