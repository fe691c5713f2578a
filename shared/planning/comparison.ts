import type { OrderPlan } from './types.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { RuleKind } from '#shared/rating/types.ts';

/** What an order was expected to cost in all (postage, materials, labour, risk), beside two simpler ways; minor units, floats. */
export interface Comparison {
  readonly planned: number;
  /** by the rule of thumb; null where no one container takes all the pieces */
  readonly ladder: number | null;
  /** everything in a carton, the cheapest that takes all; null where none does */
  readonly carton: number | null;
}

/** The trade's rule of thumb: the first rung that takes everything, in its lightest container. Common practice, no source. */
const LADDER: readonly ((container: Container, rule: RuleKind) => boolean)[] = [
  ({ type, wall, ownedBy }, rule) => type === 'pouch' && wall === 0 && ownedBy === undefined && rule !== 'cubic-soft',
  ({ type, ownedBy }) => type === 'card' && ownedBy !== undefined,
  ({ type, wall, ownedBy }) => type === 'pouch' && (wall > 0 || ownedBy !== undefined),
  // Priced by its size: the others stand before it.
  ({ type }) => type === 'pouch',
  ({ type }) => type === 'carton',
];

/** Nobody reaches for a pouch that more than one time in ten will not close; common practice, no source. */
const SURE_ENOUGH = 0.9;

/** What the plan saves against simpler ways; every way has its own best folds and service, as planning found them. */
export function compared({ parcels, cost, alternatives }: OrderPlan): Comparison {
  const singles = [{ parcels, cost }, ...alternatives].flatMap((each) => {
    const [parcel] = each.parcels;
    return each.parcels.length === 1 && parcel !== undefined
      ? [{ container: parcel.container, rule: parcel.prices.rule, fit: parcel.fit, total: each.cost.total }]
      : [];
  });
  const lightest = [...singles].sort((a, b) => a.container.mass - b.container.mass);
  const rungs = LADDER.flatMap((belongs) => lightest.filter(({ container, rule }) => belongs(container, rule)));
  const rung = rungs.find(({ fit }) => fit.probability >= SURE_ENOUGH) ?? rungs[0];
  const cartons = singles.filter(({ container }) => container.type === 'carton').map(({ total }) => total);
  return {
    planned: cost.total,
    ladder: rung?.total ?? null,
    carton: cartons.length === 0 ? null : Math.min(...cartons),
  };
}
