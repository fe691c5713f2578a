import { serviceName } from './service-name.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import type { RunState } from '#shared/run/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { money } from '#shared/units/money.ts';
import type { PlanDoubt } from '#shared/wire/views.ts';

/** What the packer should know of the plan: what it had to assume, what was not proven, what could not be kept. */
export function doubtsOf(state: RunState, parcel: ParcelPlan, shop: Shop): readonly PlanDoubt[] {
  return [...brokenPromise(state, shop), ...assumed(parcel), ...notProven(state, parcel)];
}

function brokenPromise({ remarks }: RunState, shop: Shop): PlanDoubt[] {
  const broken = remarks?.broken;
  if (broken === undefined) return [];
  const service = broken.service === undefined ? null : serviceName(shop, broken.service);
  return [{ about: 'promise', service, arriveBy: broken.arriveBy ?? null }];
}

/** One line for pieces that nobody weighed, whose weight may differ too; else one for those that were. */
function assumed({ pieces }: ParcelPlan): PlanDoubt[] {
  const doubtful = pieces.filter(({ fold }) => fold.assumed.length > 0);
  const unweighed = doubtful.filter(({ piece }) => piece.mass === undefined);
  const told = unweighed.length > 0 ? unweighed : doubtful;
  if (told.length === 0) return [];
  const what = (['size', 'cloth'] as const).filter((each) => told.some(({ fold }) => fold.assumed.includes(each)));
  return [{ about: 'assumed', what, weighed: unweighed.length === 0 }];
}

function notProven({ remarks, parcels }: RunState, { cost }: ParcelPlan): PlanDoubt[] {
  const least = remarks?.leastCost;
  if (least === undefined) return [];
  const planned = parcels.reduce((sum, each) => sum + each.cost.total, 0);
  const dearer = Math.max(0, Math.ceil(planned - least));
  return [
    {
      about: 'not-proven',
      dearer: money(dearer, cost.currency),
      least: money(Math.max(0, Math.floor(least)), cost.currency),
    },
  ];
}
