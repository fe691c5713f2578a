import { z } from 'zod';
import { parseLength } from '#shared/units/length.ts';
import { parseMass } from '#shared/units/mass.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import { LANGUAGES, type Language } from '#shared/words/language.ts';
import { writtenAs } from './written-as.ts';

/** A YAML text turned into an exact quantity; a UnitError's message becomes the problem at that path. */
function quantity<Quantity>(parse: (text: string) => Quantity, example: string) {
  return z.string(`expected a number and its unit such as ${example}`).transform((text, context) => {
    try {
      return parse(text);
    } catch (error) {
      if (!(error instanceof UnitError)) throw error;
      context.addIssue({ code: 'custom', message: error.message });
      return z.NEVER;
    }
  });
}

/** "15.9 oz", "451 g" */
export const mass = quantity(parseMass, '15.9 oz or 451 g').register(writtenAs, { as: 'mass' });

/** "12.25 in", "12 1/4 in", "31 cm" */
export const length = quantity(parseLength, '12.25 in or 31 cm').register(writtenAs, { as: 'length' });

/** A text in every language. */
export const localised = z.strictObject(
  Object.fromEntries(LANGUAGES.map((language) => [language, z.string().min(1)])) as Record<Language, z.ZodString>,
);

/** An id: lower case letters, digits and hyphens. */
export const id = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'expected lower-case letters, digits and hyphens');

/** A calendar day, "2026-11-25". */
export const day = z.iso.date().register(writtenAs, { as: 'day' });
