import { parcelHere } from '#shared/run/here.ts';
import { verdictOf } from '#shared/run/on-reading.ts';
import { bracketsOf, plannedCeiling, settledBracket } from '#shared/run/pay.ts';
import type { RunFacts, RunState } from '#shared/run/types.ts';
import { massFromGrams, subtractMass } from '#shared/units/mass.ts';
import { matchMass } from '#shared/weighing/mismatch.ts';
import type { WeighScale } from '#shared/wire/views.ts';

/** The weigh line of the parcel at hand, or null when there is none. */
export function weighScaleOf(state: RunState, facts: RunFacts): WeighScale | null {
  const parcel = parcelHere(state);
  if (parcel === undefined) return null;
  const mean = massFromGrams(parcel.mass.mean);
  const onTheScale = { mass: subtractMass(mean, parcel.toCome.mass), division: facts.weigh.division };
  const brackets = bracketsOf(parcel);
  const planned = settledBracket(state)?.ceiling ?? plannedCeiling(parcel);
  const verdict = state.progress[state.parcel]?.weighing?.verdict ?? verdictOf(parcel, onTheScale, facts);
  return {
    brackets: brackets.map(({ ceiling, price }) => ({ ceiling, price })),
    planned: brackets.findIndex((bracket) => bracket.ceiling === planned),
    toCome: parcel.toCome.mass,
    uncertainty: verdict.uncertainty,
    expected: { mean, ...matchMass(mean, parcel.mass).usual },
  };
}
