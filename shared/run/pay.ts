import { parcelHere } from './here.ts';
import type { RunState, Weighing } from './types.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import { addMass, type Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';

export interface Bracket {
  readonly ceiling: Mass;
  readonly price: Money;
}

/** Index of the planned bracket in the parcel's price steps: the one its expected mass falls into. */
export function plannedBracket(parcel: ParcelPlan): number {
  const { steps } = parcel.prices;
  const ceiling = parcel.offer.bracketCeiling;
  const at = ceiling === null ? -1 : steps.findIndex((step) => step.ceiling === ceiling);
  return at === -1 ? steps.findIndex((step) => step.price.minor === parcel.offer.price.minor) : at;
}

/** The mass that the planned price still covers. */
export function plannedCeiling(parcel: ParcelPlan): Mass {
  const step = parcel.prices.steps[plannedBracket(parcel)] ?? parcel.prices.steps.at(-1);
  if (step === undefined) throw new Error(`a plan of service ${parcel.prices.service} without a price`);
  return step.ceiling;
}

/** The lowest bracket that holds the mass with all it can be wrong by, or null above the last. */
export function safeBracket(parcel: ParcelPlan, weighing: Weighing): Bracket | null {
  const worst = addMass(weighing.verdict.total, weighing.verdict.uncertainty);
  return parcel.prices.steps.find((step) => step.ceiling >= worst) ?? null;
}

/** What "pay the next bracket" buys here: the lowest bracket above the planned one that surely holds; null if there is none. */
export function nextBracket(state: RunState): Bracket | null {
  const parcel = parcelHere(state);
  const weighing = state.progress[state.parcel]?.weighing;
  if (parcel === undefined || !weighing) return null;
  const safe = safeBracket(parcel, weighing);
  return safe !== null && safe.ceiling > weighing.verdict.ceiling ? safe : null;
}

/**
 * The price that is owed for a weighed parcel. Never less than its mass could cost: a clear weighing pays the lowest
 * bracket that holds it with its margin of error, which may be below the planned one.
 */
export function owed(parcel: ParcelPlan, weighing: Weighing): Money {
  return (safeBracket(parcel, weighing) ?? parcel.prices.steps.at(-1) ?? parcel.offer).price;
}
