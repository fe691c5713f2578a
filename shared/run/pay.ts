import { parcelHere } from './here.ts';
import type { RunState, Weighing } from './types.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import { addMass, type Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';

/** A mass ceiling with the least price that carries a parcel up to it, and whose price it is. */
export interface Bracket {
  readonly ceiling: Mass;
  readonly price: Money;
  readonly service: string;
  readonly carrier: string;
}

/** Index of the planned bracket in the planned service's own steps: the one its expected mass falls into. */
function plannedBracket(parcel: ParcelPlan): number {
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

/**
 * What this parcel costs as its mass grows: the planned service up to the planned ceiling, and beyond it the cheapest of
 * all services that take it. Ceilings and prices rise; a bracket that costs no more than one before it takes its place.
 */
export function bracketsOf(parcel: ParcelPlan): readonly Bracket[] {
  let brackets = known.get(parcel);
  if (brackets === undefined) {
    brackets = bracketsFor(parcel);
    known.set(parcel, brackets);
  }
  return brackets;
}

/** A parcel's plan never changes, and every view of its run asks. */
const known = new WeakMap<ParcelPlan, readonly Bracket[]>();

function bracketsFor(parcel: ParcelPlan): readonly Bracket[] {
  const planned = plannedCeiling(parcel);
  const { service, carrier } = parcel.prices;
  const own = parcel.prices.steps
    .filter((step) => step.ceiling <= planned)
    .map((step) => ({ ...step, service, carrier }));
  const beyond = [parcel.prices, ...parcel.otherServices]
    .filter((prices) => prices.least === undefined || prices.least <= planned)
    .flatMap((prices) => prices.steps.map((step) => ({ ...step, service: prices.service, carrier: prices.carrier })))
    .sort((a, b) => a.price.minor - b.price.minor || b.ceiling - a.ceiling);
  const brackets: Bracket[] = own;
  let reached: number = planned;
  for (const step of beyond) {
    if (step.ceiling <= reached) continue;
    reached = step.ceiling;
    brackets.push(step);
  }
  return brackets;
}

/** The lowest bracket that holds the mass with all it can be wrong by, or null above the last. */
function safeBracket(parcel: ParcelPlan, weighing: Weighing): Bracket | null {
  const worst = addMass(weighing.verdict.total, weighing.verdict.uncertainty);
  return bracketsOf(parcel).find((bracket) => bracket.ceiling >= worst) ?? null;
}

/** What "pay the next bracket" buys here: the cheapest bracket above the planned one that surely holds; null without one. */
export function nextBracket(state: RunState): Bracket | null {
  const parcel = parcelHere(state);
  const weighing = state.progress[state.parcel]?.weighing;
  if (parcel === undefined || !weighing) return null;
  const safe = safeBracket(parcel, weighing);
  return safe !== null && safe.ceiling > weighing.verdict.ceiling ? safe : null;
}

/** What the parcel at hand is sent and paid as, once its weight is settled; null before. */
export function settledBracket(state: RunState): Bracket | null {
  const parcel = parcelHere(state);
  const weighing = state.progress[state.parcel]?.weighing;
  const settled = state.step.at === 'seal' || state.step.at === 'label' || state.step.at === 'done';
  return settled && parcel !== undefined && weighing ? owed(parcel, weighing) : null;
}

/**
 * The bracket that is owed for a weighed parcel: the lowest that holds it with its margin of error, which after a clear
 * weighing may lie below the planned one, and after paying for the next may be another service's. Above every bracket,
 * the dearest; such a parcel is never sealed.
 */
export function owed(parcel: ParcelPlan, weighing: Weighing): Bracket {
  const brackets = bracketsOf(parcel);
  const bracket = safeBracket(parcel, weighing) ?? brackets.at(-1);
  if (bracket === undefined) throw new Error(`a plan of service ${parcel.prices.service} without a price`);
  return bracket;
}
