import { allBeliefs, outliers, type StoredLesson } from '#server/store/learning.ts';
import type { Store } from '#server/store/open.ts';
import { FACTOR_PRIOR } from '#shared/garments/factor-learning.ts';
import { predictedMass } from '#shared/garments/learning.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { LearnedOutlier, LearnedView } from '#shared/wire/learned.ts';

function outlierOf({ order, container, at, body }: StoredLesson): LearnedOutlier {
  return { order, container, at, ...body };
}

/** Every kind with what its file says and what its parcels taught. */
export async function learnedView(store: Store, shop: Shop): Promise<LearnedView> {
  const beliefs = new Map((await allBeliefs(store)).map((belief) => [belief.kind, belief]));
  const odd = await outliers(store);
  const { mass: unit, massPlaces } = shop.units;
  const rows = [...shop.wardrobe.kinds.values()].map((kind) => {
    const mass = beliefs.get(kind.id)?.mass ?? null;
    const factor = beliefs.get(kind.id)?.factor ?? FACTOR_PRIOR;
    return {
      kind: kind.id,
      name: kind.name,
      mass: {
        prior: kind.mass,
        now: mass === null ? kind.mass : predictedMass(mass),
        parcels: mass?.count ?? 0,
      },
      thickness: {
        prior: { mean: FACTOR_PRIOR.mean, sd: FACTOR_PRIOR.sd },
        now: { mean: factor.mean, sd: factor.sd },
        closed: factor.closed,
        tooTight: factor.tooTight,
      },
      outliers: odd.filter((lesson) => lesson.kind === kind.id).map(outlierOf),
    };
  });
  return { units: { mass: unit, massPlaces }, rows };
}
