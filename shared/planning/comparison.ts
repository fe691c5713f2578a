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
  ({ type, wall, ownedBy }, rule) => type === 'pouch' && wall === 0 && ownedBy === undefined && rule === 'cubic-soft',
  ({ type }) => type === 'carton',
];

/** What the plan saves against simpler ways; every way has its own best folds and service, as planning found them. */
export function compared({ parcels, cost, alternatives }: OrderPlan): Comparison {
  const singles = [{ parcels, cost }, ...alternatives].flatMap((each) => {
    const [parcel] = each.parcels;
    return each.parcels.length === 1 && parcel !== undefined
      ? [{ container: parcel.container, rule: parcel.prices.rule, total: each.cost.total }]
      : [];
  });
  const lightest = [...singles].sort((a, b) => a.container.mass - b.container.mass);
  const [rung] = LADDER.flatMap((belongs) => lightest.filter(({ container, rule }) => belongs(container, rule)));
  const cartons = singles.filter(({ container }) => container.type === 'carton').map(({ total }) => total);
  return {
    planned: cost.total,
    ladder: rung?.total ?? null,
    carton: cartons.length === 0 ? null : Math.min(...cartons),
  };
}
