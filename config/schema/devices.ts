import { z } from 'zod';
import { id, mass } from './quantities.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import { LISTENING_MODES } from '#shared/wire/voice.ts';
import { COMMANDS, type Command } from '#shared/run/commands.ts';
import type { FootSwitch } from '#shared/shop/shop.ts';
import { SCALE_PROTOCOLS, SIMULATED_PROTOCOLS } from '#shared/weighing/scale-protocols.ts';
import { compilePattern } from '#shared/weighing/own-form.ts';

const baud = z.int().min(110).max(4_000_000);
const affix = z.string().min(1).max(20).exactOptional();
const adapterId = z.string('expected text in quotes, such as "0403"').min(1).exactOptional();

const usbIdentity = z.strictObject({ serialNumber: adapterId, vendorId: adapterId, productId: adapterId });

const transport = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('simulated') }),
  z.strictObject({ kind: z.literal('tcp'), host: z.string().min(1), port: z.int().min(1).max(65_535) }),
  z.strictObject({ kind: z.literal('serial'), path: z.string().min(1), baud }),
  z.strictObject({
    kind: z.literal('serial-adapter'),
    adapter: usbIdentity.refine(
      (adapter) => Object.keys(adapter).length > 0,
      'expected at least one of serialNumber, vendorId, productId',
    ),
    baud,
  }),
  z.strictObject({
    kind: z.literal('device-file'),
    path: z.string().startsWith('/', 'expected a path that begins with /'),
  }),
]);

const scaleTransport = z.discriminatedUnion('kind', [
  ...transport.options,
  z.strictObject({ kind: z.literal('hid'), device: usbIdentity.default({}) }),
  z.strictObject({ kind: z.literal('hid-on-screen') }),
]);

const words = z.array(z.string().min(1)).min(1).exactOptional();
const unit = z.enum(MASS_UNITS).exactOptional();

/** A scale's output described by its owner; see compilePattern for what a pattern may hold. */
const ownForm = z.strictObject({
  kind: z.literal('own'),
  pattern: z.string().superRefine((pattern, context) => {
    const compiled = compilePattern(pattern);
    if (!compiled.ok) {
      context.addIssue({ code: 'custom', message: `expected ${compiled.expected}, found "${pattern}"` });
    }
  }),
  words: z
    .strictObject({ still: words, moving: words, over: words, under: words, fault: words, net: words })
    .exactOptional(),
  unit,
  ask: z.string().min(1).exactOptional(),
  zero: z.string().min(1).exactOptional(),
});

const accuracy = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('hb44'), when: z.enum(['in-service', 'acceptance']) }),
  z.strictObject({ kind: z.literal('r76'), when: z.enum(['in-service', 'verification']) }),
  z.strictObject({ kind: z.literal('own'), plusMinus: mass }),
]);

const scale = z
  .strictObject({
    transport: scaleTransport,
    protocol: z.union([z.enum(SCALE_PROTOCOLS), ownForm]),
    unit,
    division: mass.refine((division) => division > 0, 'expected a division above zero'),
    capacity: mass,
    accuracy,
    drift: mass.refine((drift) => drift >= 0, 'expected a drift of zero or more'),
    reference: z
      .strictObject({
        mass: mass.refine((known) => known > 0, 'expected a mass above zero'),
        plusMinus: mass.refine((spread) => spread >= 0, 'expected zero or more'),
      })
      .exactOptional(),
  })
  .refine(({ transport: on, protocol }) => !on.kind.startsWith('hid') || protocol === 'hid', {
    path: ['protocol'],
    message: 'expected hid for a USB HID scale',
  })
  .refine(
    ({ transport: on, protocol }) => on.kind !== 'simulated' || SIMULATED_PROTOCOLS.some((each) => each === protocol),
    {
      path: ['protocol'],
      message: 'expected continuous, sma or hid for a simulated scale, found a form of your own',
    },
  )
  .refine(({ capacity, reference }) => reference === undefined || reference.mass <= capacity, {
    path: ['reference', 'mass'],
    message: 'expected a mass that the scale may carry: no more than its capacity',
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
  status: z.literal('none').exactOptional(),
});

const labelPrinter = z
  .strictObject({
    transport,
    speaks: z.enum(['escpos', 'zpl']),
    dotsPerLine: z
      .int()
      .min(200)
      .max(2000)
      .multipleOf(8, 'expected a whole number of bytes: a multiple of 8')
      .default(576),
    status: z.literal('none').exactOptional(),
  })
  .refine(({ transport: on, speaks }) => on.kind !== 'simulated' || speaks === 'escpos', {
    path: ['speaks'],
    message: 'expected escpos for a simulated label printer',
  });

const labelProgram = z.strictObject({ program: z.string().min(1), arguments: z.array(z.string()).default([]) });

const key = z.string().regex(/^[A-Z][A-Za-z0-9]*$/, 'expected a key code such as F13 or Enter');

/** Pedals: keys that press the main command, and keys of commands of their own; each key means one thing. */
const footSwitch = z
  .union([z.array(key), z.partialRecord(z.enum(['main', ...COMMANDS]), z.array(key))], {
    error: 'expected a list of key codes, or key codes by main or a command, such as { main: [F13], back: [F15] }',
  })
  .transform((given): FootSwitch => {
    if (Array.isArray(given)) return { main: given, commands: {} };
    const { main = [], ...rest } = given;
    const pairs = Object.entries(rest).flatMap(([command, keys]) => keys.map((each) => [each, command] as const));
    return { main, commands: Object.fromEntries(pairs) as Record<string, Command> };
  });

const eachKeyOnce = (
  { footSwitchKeys, voice: hears }: { footSwitchKeys: Partial<FootSwitch>; voice?: { talkKeys?: string[] } },
  context: z.RefinementCtx,
): void => {
  const { main = [], commands } = footSwitchKeys;
  // Named already for what it is.
  if (commands === undefined) return;
  const said = new Map<string, string>();
  const uses = [
    ...main.map((code) => [code, 'main'] as const),
    ...Object.entries(commands),
    ...(hears?.talkKeys ?? []).map((code) => [code, 'talkKeys'] as const),
  ];
  for (const [code, means] of uses) {
    const other = said.get(code);
    if (other !== undefined && other !== means) {
      context.addIssue({
        code: 'custom',
        path: ['footSwitchKeys'],
        message: `expected each key to mean one thing, found ${code} for ${other} and for ${means}`,
      });
    }
    said.set(code, means);
  }
};

const voice = z.strictObject({
  microphone: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('screen') }),
    z.strictObject({
      kind: z.literal('alsa'),
      device: z.string().regex(/^[^\s-]\S*$/, 'expected the name of an ALSA device, such as plughw:1,0'),
    }),
    z.strictObject({ kind: z.literal('program'), program: z.string().min(1), arguments: z.array(z.string()) }),
  ]),
  listening: z.enum(LISTENING_MODES),
  wakeSeconds: z.int().min(3).max(120).exactOptional(),
  talkKeys: z.array(key).exactOptional(),
});

/** devices.yaml */
export const devicesFile = z.strictObject({
  /** by id */
  benches: z
    .record(
      id,
      z
        .strictObject({
          name: z.string().min(1),
          scale,
          scanner: z.strictObject({ transport, prefix: affix, suffix: affix }).nullable(),
          printer,
          labelPrinter: labelPrinter.exactOptional(),
          labelProgram: labelProgram.exactOptional(),
          footSwitchKeys: footSwitch,
          voice: voice.exactOptional(),
        })
        .superRefine(eachKeyOnce),
    )
    .refine((all) => Object.keys(all).length > 0, 'expected at least one'),
});
