import type { Candidate, FoldSearch } from './fold-search.ts';
import type { NearestFit } from './nearest-fit.ts';
import type { Packing } from './packing.ts';
import { ratedParcel } from './rated-parcel.ts';
import { cheapestPostage, type Scene } from './scene.ts';
import { repackCost } from './cost.ts';
import type { ServiceWish } from './service-wish.ts';
import type { PlanRejection, RejectionCode } from './types.ts';
import type { Container, Fit } from '#shared/fitting/types.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import { formatLength, lengthFromMillimetres, type LengthUnit } from '#shared/units/length.ts';
import { formatMassPlain, massFromGrams, formatMass, toGrams } from '#shared/units/mass.ts';
import { formatMoney, money } from '#shared/units/money.ts';

/** One container with what the search found in it. */
export interface Tried {
  readonly container: Container;
  readonly search: FoldSearch;
  /** where they do not fit, what comes nearest to it */
  readonly near: NearestFit | null;
}

/** One container that was not searched, and why. */
export interface LeftOut {
  readonly container: string;
  readonly code: Extract<RejectionCode, 'left-out' | 'out-of-stock' | 'wants-double-bag'>;
}

function rejection(
  container: string,
  code: RejectionCode,
  values: PlanRejection['values'],
  service?: string,
): PlanRejection {
  return service === undefined ? { container, code, values } : { container, service, code, values };
}

/** What costs so much more, in minor units; less than half of one is the same. */
function lost(
  container: string,
  more: number,
  scene: Scene,
  values: PlanRejection['values'],
  service?: string,
): PlanRejection {
  const minor = Math.round(more);
  if (minor <= 0) return rejection(container, 'no-cheaper', values, service);
  const by = formatMoney(money(minor, scene.shop.currency));
  return rejection(container, 'dearer', { by, ...values }, service);
}

/** Decimal places that a lack is told with, and what the last of them is in mm. */
const TOLD_WITH: Readonly<Record<LengthUnit, readonly [places: number, last: number]>> = {
  mm: [0, 1],
  cm: [1, 1],
  in: [2, 0.254],
};

/** Up to the last place, so that what is lacking is never told as nothing. */
function lackingWords(millimetres: number, scene: Scene): string {
  const unit = scene.shop.units.length;
  const [places, last] = TOLD_WITH[unit];
  return formatLength(lengthFromMillimetres(Math.ceil(millimetres / last - 1e-6) * last), unit, places);
}

function tooTight(container: Container, fit: Fit, scene: Scene): PlanRejection {
  if (fit.limit === 'must-not-press') return rejection(container.id, 'must-not-press', {});
  const direction = fit.limit === 'thickness-cap' ? 'thickness' : fit.limit;
  return rejection(container.id, 'too-tight', {
    limit: fit.limit,
    by: lackingWords(-fit.slack[direction], scene),
  });
}

/** What each service holds against this filled container, whatever it costs. */
function serviceRefusals(
  container: Container,
  filled: Fit['filled'],
  scene: Scene,
  wish: ServiceWish | null,
): PlanRejection[] {
  const refused = scene.refusals(ratedParcel(container, filled));
  const slower = scene.market(container, filled).steps.filter((each) => !scene.mayUse(each));
  return [
    ...refused.map(({ service, why }) => ({ container: container.id, service, code: why.code, values: why.values })),
    ...slower.flatMap((each) => {
      if (wish === null) return [];
      const { code, values } = wish.broken(each);
      return [rejection(container.id, code, values, each.service)];
    }),
  ];
}

function wrongMassFor(steps: PriceSteps, { container, mass }: Packing, scene: Scene): PlanRejection {
  const { mass: unit, massPlaces } = scene.shop.units;
  const most = steps.steps.at(-1)?.ceiling;
  const expected = formatMass(massFromGrams(mass.mean), unit, massPlaces);
  if (steps.least !== undefined && mass.mean < toGrams(steps.least)) {
    const values = { expected, least: formatMassPlain(steps.least, unit) };
    return rejection(container.id, 'too-light', values, steps.service);
  }
  return rejection(
    container.id,
    'too-heavy',
    {
      expected,
      most: most === undefined ? '' : formatMassPlain(most, unit),
    },
    steps.service,
  );
}

/** Why every other service lost in a container that the pieces fit. */
function otherServices(candidate: Candidate, scene: Scene, wish: ServiceWish | null): PlanRejection[] {
  const { packing, fit, postage } = candidate;
  const { container, mass } = packing;
  const prices = scene.market(container, fit.filled);
  const others = prices.steps.filter((each) => each !== postage.steps && scene.mayUse(each));
  const dearer = others.map((steps) => {
    const alone = cheapestPostage({ steps: [steps] }, mass, repackCost(container, scene.shop), scene);
    if (alone === null) return wrongMassFor(steps, packing, scene);
    const more = alone.expected - postage.expected;
    return lost(container.id, more, scene, { than: postage.steps.service }, steps.service);
  });
  return [...dearer, ...serviceRefusals(container, fit.filled, scene, wish)];
}

function notChosen({ container, search, near }: Tried, chosenTotal: number, scene: Scene, wish: ServiceWish | null) {
  if (search.found) {
    const { cost, postage } = search.candidate;
    return [
      lost(container.id, cost.total - chosenTotal, scene, { with: postage.steps.service }),
      ...otherServices(search.candidate, scene, wish),
    ];
  }
  if (search.noService !== null) {
    const { packing, fit } = search.noService;
    const usable = scene.market(container, fit.filled).steps.filter(scene.mayUse);
    return [
      rejection(container.id, 'no-service', {}),
      ...usable.map((steps) => wrongMassFor(steps, packing, scene)),
      ...serviceRefusals(container, fit.filled, scene, wish),
    ];
  }
  return near === null ? [] : [tooTight(container, near.fit, scene)];
}

/**
 * What was held against every container and service that was not chosen, for all the pieces in one parcel.
 * @param chosen the plan's single parcel, or null when it is split or there is none
 * @param total the plan's cost in minor units, infinite when there is none
 * @param leftOut containers that were not searched
 */
export function whyNot(
  tried: readonly Tried[],
  chosen: Candidate | null,
  total: number,
  leftOut: readonly LeftOut[],
  scene: Scene,
  wish: ServiceWish | null,
): readonly PlanRejection[] {
  return [
    ...leftOut.map(({ container, code }) => rejection(container, code, {})),
    ...tried.flatMap((each) =>
      chosen !== null && each.container === chosen.packing.container
        ? otherServices(chosen, scene, wish)
        : notChosen(each, total, scene, wish),
    ),
  ];
}
