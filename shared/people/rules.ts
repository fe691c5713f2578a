import { DEFAULT_POSTURE, type LiftPosture } from '#shared/care/lifting.ts';
import { DEFAULT_GUIDANCE, type GuidanceRule } from '#shared/guidance/level.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Localised } from '#shared/words/language.ts';

/** What can be wrong in a round of "what is wrong here". */
export const PROBLEMS = ['wrong-piece', 'wrong-label', 'too-close', 'zero-drifted', 'pocket-cell'] as const;
export type Problem = (typeof PROBLEMS)[number];

/** Something that a person learns and a supervisor signs off. */
export interface Skill {
  readonly id: string;
  readonly name: Localised;
  /** kinds of garment that ask for it, by id; none: no order asks for it */
  readonly kinds: readonly string[];
  /** of "what is wrong here", the problems that belong to it */
  readonly problems: readonly Problem[];
  /** right answers in a row, of each exercise, before it can be signed off; 0: not practised so */
  readonly practise: { readonly guided: number; readonly choose: number; readonly spot: number };
}

/** What an order that asks for a skill that the person lacks is met with. */
export const GATES = ['off', 'warn', 'block'] as const;
export type Gate = (typeof GATES)[number];

/** How a shop treats the people at its benches. */
export interface PeopleRules {
  readonly guidance: GuidanceRule;
  /** remind of a pause after so many minutes of packing; a pause lasts at least so long. null: no reminder */
  readonly pause: { readonly afterMinutes: number; readonly restMinutes: number } | null;
  readonly lift: LiftPosture;
  readonly gate: Gate;
  readonly skills: readonly Skill[];
}

export const DEFAULT_PEOPLE: PeopleRules = {
  guidance: DEFAULT_GUIDANCE,
  pause: null,
  lift: DEFAULT_POSTURE,
  gate: 'warn',
  skills: [
    {
      id: 'packing',
      name: { en: 'Packing an order', es: 'Preparar un pedido' },
      kinds: [],
      problems: [...PROBLEMS],
      practise: { guided: 1, choose: 3, spot: 4 },
    },
  ],
};

/** What the shop's file says, or the defaults where it has none. */
export function peopleRules(shop: Pick<Shop, 'people'>): PeopleRules {
  return shop.people ?? DEFAULT_PEOPLE;
}
