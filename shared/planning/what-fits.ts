import { tightestSlack, type NearestFit } from './nearest-fit.ts';
import { rejectionWords, whyWords } from './explain.ts';
import { planOf } from './plan-order.ts';
import { isEmpty, surveyOrder, type PlanRequest, type Survey } from './survey.ts';
import { whyNot } from './why-not.ts';
import type { OrderPlan, PlanCost, PlanRejection } from './types.ts';
import { stackOf } from '#shared/fitting/stack.ts';
import type { Container, Fit, Wrap } from '#shared/fitting/types.ts';
import type { Fold, FoldedBlock } from '#shared/folding/types.ts';
import { assumedOf, clothOf } from '#shared/garments/measures.ts';
import type { PriceSteps } from '#shared/rating/types.ts';
import { toMillimetres, type Length } from '#shared/units/length.ts';
import type { Localised } from '#shared/words/language.ts';

export type WhatFitsRequest = PlanRequest;

/** The stack as it lies in a container, float mm; pressed where it does not close at rest and may be pressed. */
export interface LaidStack {
  /** along the container's width, its length and its depth */
  readonly across: number;
  readonly along: number;
  readonly thickness: number;
  readonly piles: number;
}

/** How some pieces sit in one container, and what they would cost in it. */
export interface ContainerFit {
  readonly container: Container;
  readonly wrap: Wrap;
  readonly folds: readonly Fold[];
  readonly fit: Fit;
  readonly stack: LaidStack;
  /** null where they do not fit, or nothing takes them */
  readonly cost: PlanCost | null;
  /** what is likely charged, in minor units */
  readonly postage: number | null;
  readonly service: PriceSteps | null;
  readonly isChosen: boolean;
  /** why not this container, or why it is the one; one sentence */
  readonly why: Localised;
  /** what was held against the other services in it */
  readonly services: readonly { readonly service: string; readonly why: Localised }[];
}

export interface WhatFits {
  readonly pieces: readonly {
    readonly sku: string;
    readonly title: string;
    readonly kind: string;
    readonly cloth: string | null;
    readonly grams: number;
    readonly sd: number;
    readonly weighed: boolean;
    readonly assumed: readonly ('size' | 'cloth')[];
  }[];
  /** those that take the pieces, cheapest first; then those that come nearest to it */
  readonly containers: readonly ContainerFit[];
  /** containers that were not looked at, and why */
  readonly leftOut: readonly { readonly name: Localised; readonly why: Localised }[];
  /** the cheapest plan, in one parcel or several; null where there is none */
  readonly plan: Pick<OrderPlan, 'parcels' | 'cost' | 'proven' | 'lowerBound'> | null;
  readonly planWhy: Localised | null;
}

function laidStack(blocks: readonly FoldedBlock[], wrap: Wrap, fit: Fit, { inside }: Container): LaidStack {
  const { short, long, resting, pressed, mayPress } = stackOf(blocks, wrap);
  const thickness = fit.verdict === 'easy' || !mayPress ? resting : pressed;
  const piles = fit.piles ?? 1;
  if (piles === 1) return { across: fit.turned ? long : short, along: fit.turned ? short : long, thickness, piles };
  const within = (side: Length | undefined, spare: number) => (side === undefined ? 0 : toMillimetres(side)) - spare;
  return {
    across: within(inside.width, fit.slack.width),
    along: within(inside.length, fit.slack.length),
    thickness: within(inside.depth, fit.slack.thickness),
    piles,
  };
}

const both = (words: (language: 'en' | 'es') => string): Localised => ({ en: words('en'), es: words('es') });

/** What was held against a container itself, not against a service in it. */
function whyOf(container: Container, reasons: readonly PlanRejection[]): Localised {
  const own = reasons.find((each) => each.container === container.id && each.service === undefined);
  return own === undefined ? { en: '', es: '' } : both((language) => rejectionWords(own, language));
}

function servicesOf(container: Container, reasons: readonly PlanRejection[]): ContainerFit['services'] {
  return reasons.flatMap((each) =>
    each.container === container.id && each.service !== undefined
      ? [{ service: each.service, why: both((language) => rejectionWords(each, language)) }]
      : [],
  );
}

/** Those that take the pieces, cheapest first; then those that come nearest to it. */
function containerFits(survey: Survey, plan: OrderPlan | null): readonly ContainerFit[] {
  const { tried, scene, leftOut, wish, division, singles } = survey;
  const chosen = division.split === null ? (singles[0] ?? null) : null;
  const reasons = whyNot(tried, chosen, plan?.cost.total ?? Infinity, leftOut, scene, wish);
  const about = (container: Container, { folds, wrap, fit }: NearestFit) => {
    const blocks = folds.map(({ block }) => block);
    const stack = laidStack(blocks, wrap, fit, container);
    return { container, wrap, folds, fit, stack, services: servicesOf(container, reasons) };
  };
  const taking = singles.map((candidate): ContainerFit => {
    const { packing, folds, fit, postage, cost } = candidate;
    const { container, wrap } = packing;
    const isChosen = candidate === chosen;
    return {
      ...about(container, { folds, wrap, fit }),
      cost,
      postage: postage.expected,
      service: postage.steps,
      isChosen,
      why: isChosen && plan !== null ? both((language) => whyWords(plan, language)) : whyOf(container, reasons),
    };
  });
  const others = tried.flatMap(({ container, near }): ContainerFit[] => {
    if (near === null) return [];
    const none = { cost: null, postage: null, service: null, isChosen: false };
    return [{ ...about(container, near), ...none, why: whyOf(container, reasons) }];
  });
  return [...taking, ...others.sort((a, b) => tightestSlack(b.fit) - tightestSlack(a.fit))];
}

/**
 * How the pieces of an order, all together, sit in every container of the shop: which take them, how surely, at what cost,
 * and why not the others; and the cheapest plan, which may divide them.
 * @throws PlanError no-pieces, too-many-pieces, unknown-piece or unknown-kind
 */
export function whatFits(request: WhatFitsRequest): WhatFits {
  const { shop } = request;
  const survey = surveyOrder(request);
  const plan = isEmpty(survey) ? null : planOf(survey, request.order);
  const leftOut = survey.leftOut.flatMap(({ container, code }) => {
    const name = shop.containers.get(container)?.name;
    const why = both((language) => rejectionWords({ container, code, values: {} }, language));
    return name === undefined ? [] : [{ name, why }];
  });
  return {
    pieces: survey.items.map(({ piece, mass }) => ({
      sku: piece.sku,
      title: piece.title,
      kind: piece.kind,
      cloth: shop.wardrobe.kinds.get(piece.kind)?.outline === 'block' ? null : clothOf(piece, shop.wardrobe).id,
      grams: mass.mean,
      sd: mass.sd,
      weighed: piece.mass !== undefined,
      assumed: assumedOf(piece, shop.wardrobe),
    })),
    containers: containerFits(survey, plan),
    leftOut,
    plan:
      plan === null
        ? null
        : {
            parcels: plan.parcels,
            cost: plan.cost,
            proven: plan.proven,
            ...(plan.lowerBound === undefined ? {} : { lowerBound: plan.lowerBound }),
          },
    planWhy: plan === null ? null : both((language) => whyWords(plan, language)),
  };
}
