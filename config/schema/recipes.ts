import { z } from 'zod';
import type { FoldAction, Fraction, Recipe, RecipeStep } from '#shared/folding/types.ts';
import type { Kind } from '#shared/garments/types.ts';
import { id, localised } from './quantities.ts';
import { writtenAs } from './written-as.ts';

/** "2/3": what is left of the width or the length. Below a half the end would stick out on the other side. */
const fraction = z
  .string()
  .transform((text, context): Fraction => {
    const match = /^\s*(\d+)\s*\/\s*(\d+)\s*$/.exec(text);
    const [numerator, denominator] = [Number(match?.[1]), Number(match?.[2])];
    if (match !== null && denominator > 0 && numerator * 2 >= denominator && numerator < denominator) {
      return [numerator, denominator];
    }
    context.addIssue({
      code: 'custom',
      message: `expected a fraction such as 2/3, at least 1/2 and below 1 so that the fold closes, found "${text}"`,
    });
    return z.NEVER;
  })
  .register(writtenAs, { as: 'fraction' });

const texts = {
  words: localised,
  spoken: localised,
  why: localised.optional(),
  avoid: localised.optional(),
};

const simple = z.enum(['fasten', 'face-down', 'face-up', 'sleeves-in', 'hood-down', 'legs-together']);
const side = z.enum(['left', 'right']);
const end = z.enum(['top', 'bottom']);
const edge = z.enum(['left', 'right', 'top', 'bottom']);

/** How the other part of a set is folded before it is laid on: no words of its own. */
const bareAction = z.discriminatedUnion('do', [
  z.strictObject({ do: simple }),
  z.strictObject({ do: z.literal('fold-width'), from: side, to: fraction }),
  z.strictObject({ do: z.literal('fold-length'), from: end, to: fraction }),
  z.strictObject({ do: z.literal('tuck'), from: edge, to: fraction }),
]);

const step = z.discriminatedUnion('do', [
  z.strictObject({ do: simple, ...texts }),
  z.strictObject({ do: z.literal('fold-width'), from: side, to: fraction, ...texts }),
  z.strictObject({ do: z.literal('fold-length'), from: end, to: fraction, ...texts }),
  z.strictObject({ do: z.literal('tuck'), from: edge, to: fraction, ...texts }),
  z.strictObject({ do: z.literal('roll'), from: end, ...texts }),
  z.strictObject({ do: z.literal('lay-on'), kind: id, by: z.array(bareAction), ...texts }),
]);

const recipe = z.strictObject({ name: localised, kinds: z.array(id).min(1).optional(), steps: z.array(step).min(1) });

/** The whole of `recipes.yaml`. */
export const recipesSchema = z.strictObject({ recipes: z.record(id, recipe) });
export type ParsedRecipes = z.output<typeof recipesSchema>;

function toStep({
  words,
  spoken,
  why,
  avoid,
  ...action
}: ParsedRecipes['recipes'][string]['steps'][number]): RecipeStep {
  return {
    action: action satisfies FoldAction,
    words,
    spoken,
    ...(why === undefined ? {} : { why }),
    ...(avoid === undefined ? {} : { avoid }),
  };
}

/** Kinds with the folds that name them behind those that they name themselves. */
export function withFolds(kinds: ReadonlyMap<string, Kind>, { recipes }: ParsedRecipes): Map<string, Kind> {
  return new Map(
    [...kinds].map(([key, kind]) => {
      const also = Object.entries(recipes).filter(
        ([recipeId, { kinds: named = [] }]) => named.includes(key) && !kind.recipes.includes(recipeId),
      );
      return [key, also.length === 0 ? kind : { ...kind, recipes: [...kind.recipes, ...also.map(([each]) => each)] }];
    }),
  );
}

export function toRecipes(parsed: ParsedRecipes): Map<string, Recipe> {
  return new Map(
    Object.entries(parsed.recipes).map(([key, { name, steps }]) => [key, { id: key, name, steps: steps.map(toStep) }]),
  );
}
