import { z } from 'zod';
import { id, mass } from './quantities.ts';

const transport = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('simulated') }),
  z.strictObject({ kind: z.literal('tcp'), host: z.string().min(1), port: z.int().min(1).max(65_535) }),
  z.strictObject({ kind: z.literal('serial'), path: z.string().min(1), baud: z.int().min(110).max(4_000_000) }),
]);

const accuracy = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('hb44'), when: z.enum(['in-service', 'acceptance']) }),
  z.strictObject({ kind: z.literal('r76'), when: z.enum(['in-service', 'verification']) }),
  z.strictObject({ kind: z.literal('own'), plusMinus: mass }),
]);

const scale = z
  .strictObject({
    transport,
    protocol: z.enum(['continuous', 'sma']),
    division: mass.refine((division) => division > 0, 'expected a division above zero'),
    capacity: mass,
    accuracy,
    drift: mass.refine((drift) => drift >= 0, 'expected a drift of zero or more'),
  })
  .refine(({ division, capacity }) => capacity >= division, {
    path: ['capacity'],
    message: 'expected a capacity above the division',
  });

const printer = z.strictObject({
  transport,
  paper: z.literal([58, 80]),
  dotsPerLine: z.int().min(200).max(832).multipleOf(8, 'expected a whole number of bytes: a multiple of 8'),
  columns: z.int().min(20).max(72),
  cutter: z.boolean(),
});

/** devices.yaml */
export const devicesFile = z.strictObject({
  /** by id */
  benches: z
    .record(
      id,
      z.strictObject({
        name: z.string().min(1),
        scale,
        scanner: z.strictObject({ transport }).nullable(),
        printer,
        footSwitchKeys: z.array(z.string().regex(/^[A-Z][A-Za-z0-9]*$/, 'expected a key code such as F13 or Enter')),
      }),
    )
    .refine((all) => Object.keys(all).length > 0, 'expected at least one'),
});

export type DevicesFile = z.output<typeof devicesFile>;
