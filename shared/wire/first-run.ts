import type { Language, Localised } from '#shared/words/language.ts';

/** What is asked in a shop's first hour, in this order. */
export const FIRST_STEPS = ['shop', 'containers', 'prices', 'devices', 'people', 'import'] as const;
export type FirstStep = (typeof FIRST_STEPS)[number];

export const STEP_STATES = ['open', 'done', 'skipped'] as const;
export type StepState = (typeof STEP_STATES)[number];

export const MEASURES = ['inches', 'centimetres'] as const;
/** In which measures a new shop thinks: inches and ounces, or centimetres and grams. */
export type Measures = (typeof MEASURES)[number];

export const DAY_ORDERS = ['day-first', 'month-first'] as const;
/** How its spreadsheets write days: 25/11/2026 or 11/25/2026. */
export type DayOrder = (typeof DAY_ORDERS)[number];

export const DECIMAL_MARKS = ['point', 'comma'] as const;

/** What the shop is, as the guide asks for it. */
export interface ShopFacts {
  readonly name: string;
  readonly measures: Measures;
  /** ISO 4217 */
  readonly currency: string;
  readonly timeZone: string;
  readonly language: Language;
  readonly postcode: string;
  /** ISO 3166-1, two letters */
  readonly country: string;
  /** how its spreadsheets write days and decimals */
  readonly days: DayOrder;
  readonly decimals: (typeof DECIMAL_MARKS)[number];
  /** its lines, as the slip shows them */
  readonly address: readonly string[];
}

export const CONTAINER_SORTS = ['pouch', 'card', 'carton'] as const;

/** A container in words that somebody types: "10 in", "10.5 g", "0.09". */
export interface NewContainer {
  readonly name: string;
  readonly type: (typeof CONTAINER_SORTS)[number];
  readonly width: string;
  readonly length: string;
  /** of a carton; empty otherwise */
  readonly depth: string;
  readonly mass: string;
  readonly cost: string;
}

export interface CupboardRow {
  readonly id: string;
  readonly name: Localised;
  readonly type: string;
  readonly size: string;
  readonly mass: string;
  readonly cost: string;
}

export interface NewPerson {
  readonly name: string;
  readonly role: 'packer' | 'supervisor' | 'owner';
  readonly language: Language;
}

/** How far the first hour of a shop is, and what it finds. */
export interface FirstRunView {
  /** the shop was begun here and its guide is not put away yet: the office opens on it */
  readonly open: boolean;
  readonly steps: Readonly<Record<FirstStep, StepState>>;
  readonly folder: string;
  readonly shop: ShopFacts;
  readonly containers: readonly CupboardRow[];
  /** names of rate cards; `sample` is the stand-in that a new shop begins with */
  readonly cards: readonly { readonly file: string; readonly name: Localised; readonly sample: boolean }[];
  readonly benches: readonly { readonly id: string; readonly name: string; readonly simulated: readonly string[] }[];
  readonly people: readonly { readonly id: string; readonly name: string; readonly badge: string }[];
  readonly counts: { readonly pieces: number; readonly orders: number };
}
