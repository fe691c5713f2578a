import { z } from 'zod';
import { CONTAINER_TYPES, type Container, type Wrap, type WrapStep } from '#shared/fitting/types.ts';
import { toMillimetres, type Length } from '#shared/units/length.ts';
import { parseMoney } from '#shared/units/money.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import { CAUTIONS } from '#shared/garments/cautions.ts';
import { id, length, localised, mass } from './quantities.ts';
import { writtenAs } from './written-as.ts';

/** "0.12": an amount of the shop's currency, which the caller knows. */
const amount = z
  .string()
  .register(writtenAs, { as: 'money' })
  .superRefine((text, context) => {
    try {
      const found = parseMoney(text, 'XXX');
      if (found.minor < 0) context.addIssue({ code: 'custom', message: `expected 0.00 or more, found "${text}"` });
    } catch (error) {
      if (!(error instanceof UnitError)) throw error;
      context.addIssue({ code: 'custom', message: error.message });
    }
  });

const side = length.refine((exact) => exact > 0, 'expected a length above 0');
const notNegative = length.refine((exact) => exact >= 0, 'expected a length of 0 or more');
const weight = mass.refine((exact) => exact >= 0, 'expected a mass of 0 or more');
const none = '0 mm';

const sides = z.strictObject({ width: side, length: side, depth: side.optional() });

const container = z
  .strictObject({
    name: localised,
    type: z.enum(CONTAINER_TYPES),
    ownedBy: id.optional(),
    inside: sides,
    outside: sides,
    closing: notNegative.prefault(none),
    thicknessCap: side.optional(),
    wall: notNegative.prefault(none),
    mass: weight,
    massSd: weight,
    cost: amount,
    seconds: z.number().nonnegative(),
    cautions: z.array(z.enum(CAUTIONS)).default([]),
    source: z.string().min(1).optional(),
  })
  .superRefine((each, context) => {
    const complain = (path: string[], message: string) => {
      context.addIssue({ code: 'custom', path, message });
    };
    for (const where of ['inside', 'outside'] as const) {
      const given = each[where].depth !== undefined;
      if (each.type === 'carton' && !given) complain([where], 'expected a depth for a carton, found none');
      if (each.type !== 'carton' && given) complain([where, 'depth'], `expected no depth for a ${each.type}`);
    }
    for (const way of ['width', 'length', 'depth'] as const) {
      const [within, without] = [each.inside[way], each.outside[way]];
      if (within !== undefined && without !== undefined && without < within) {
        complain(['outside', way], 'expected an outside no smaller than the inside');
      }
    }
    if (each.closing >= each.inside.length) complain(['closing'], 'expected less than the inside length');
  });

const wrapStep = z.strictObject({
  into: z.enum(['sheet', 'bag']),
  words: localised,
  spoken: localised,
  why: localised.optional(),
  avoid: localised.optional(),
});

const wrap = z.strictObject({
  name: localised,
  steps: z.array(wrapStep).default([]),
  massPerPiece: weight,
  costPerPiece: amount,
  secondsPerPiece: z.number().nonnegative(),
  thickness: notNegative.prefault(none),
  cautions: z.array(z.enum(CAUTIONS)).default([]),
  source: z.string().min(1).optional(),
});

/** The whole of `containers.yaml`: containers and wraps. */
export const containersSchema = z.strictObject({
  containers: z.record(id, container),
  wraps: z.record(id, wrap),
});
export type ParsedContainers = z.output<typeof containersSchema>;

interface Sides {
  readonly width: Length;
  readonly length: Length;
  readonly depth?: Length | undefined;
}

function exactSides({ width, length: along, depth }: Sides): Container['inside'] {
  return { width, length: along, ...(depth === undefined ? {} : { depth }) };
}

/** @param currency the shop's, in which the costs are written */
export function toContainers(parsed: ParsedContainers, currency: string): Map<string, Container> {
  return new Map(
    Object.entries(parsed.containers).map(([key, each]) => [
      key,
      {
        id: key,
        name: each.name,
        type: each.type,
        ...(each.ownedBy === undefined ? {} : { ownedBy: each.ownedBy }),
        inside: exactSides(each.inside),
        outside: exactSides(each.outside),
        closing: each.closing,
        ...(each.thicknessCap === undefined ? {} : { thicknessCap: each.thicknessCap }),
        wall: each.wall,
        mass: each.mass,
        massSd: each.massSd,
        cost: parseMoney(each.cost, currency),
        seconds: each.seconds,
        cautions: each.cautions,
      },
    ]),
  );
}

function toWrapStep({ into, words, spoken, why, avoid }: z.output<typeof wrapStep>): WrapStep {
  return { into, words, spoken, ...(why === undefined ? {} : { why }), ...(avoid === undefined ? {} : { avoid }) };
}

/** @param currency the shop's, in which the costs are written */
export function toWraps(parsed: ParsedContainers, currency: string): Map<string, Wrap> {
  return new Map(
    Object.entries(parsed.wraps).map(([key, each]) => [
      key,
      {
        id: key,
        name: each.name,
        massPerPiece: each.massPerPiece,
        costPerPiece: parseMoney(each.costPerPiece, currency),
        secondsPerPiece: each.secondsPerPiece,
        ...(each.steps.length === 0 ? {} : { steps: each.steps.map(toWrapStep) }),
        thickness: toMillimetres(each.thickness),
        ...(each.cautions.length === 0 ? {} : { cautions: each.cautions }),
      },
    ]),
  );
}
