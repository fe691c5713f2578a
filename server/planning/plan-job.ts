import { fitsView } from '#server/office/fits-view.ts';
import { LearnedShop } from '#server/learning/learned-shop.ts';
import type { KindBelief } from '#server/store/learning.ts';
import type { Piece } from '#shared/garments/types.ts';
import { compared, type Comparison } from '#shared/planning/comparison.ts';
import { planForRun } from '#shared/planning/for-run.ts';
import type { PortableShop } from './portable-shop.ts';
import { PlanError, type PlanErrorCode } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { Order, OrderPlan, PlanRejection } from '#shared/planning/types.ts';
import { whatFits, type WhatFitsRequest } from '#shared/planning/what-fits.ts';
import type { Day } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { FitsView } from '#shared/wire/fits.ts';

/** A plan that is wanted, as it crosses to another thread. */
export interface PlanJob {
  readonly order: Order;
  /** those of the order */
  readonly pieces: readonly Piece[];
  readonly day: Day;
  readonly without: readonly string[];
  readonly beliefs: readonly KindBelief[];
  /** containers of which none is left, beside those that the shop's files name */
  readonly outOfStock?: readonly string[];
}

export type Planned =
  | { readonly ok: true; readonly plan: OrderPlan; readonly compared: Comparison }
  | {
      readonly ok: false;
      readonly code: PlanErrorCode;
      readonly why: string;
      readonly whyNot: readonly PlanRejection[];
    };

export type FitsJob = Omit<WhatFitsRequest, 'shop'> & Pick<PlanJob, 'beliefs' | 'outOfStock'>;

export type Fitted =
  /** a FitsView as JSON, made and written on the thread that plans: what was found is many times what a screen shows of it */
  | { readonly ok: true; readonly json: string }
  | { readonly ok: false; readonly code: PlanErrorCode; readonly why: string };

/** What a planning thread is asked and answers. */
export type Question =
  | { readonly id: number; readonly what: 'plan'; readonly job: PlanJob }
  | { readonly id: number; readonly what: 'containers'; readonly job: PlanJob }
  | { readonly id: number; readonly what: 'fits'; readonly job: FitsJob };

/** What a planning thread is sent: a question, or the shop to answer from now on. */
export type Asked = Question | { readonly what: 'shop'; readonly shop: PortableShop };

/** Does planning jobs for one shop, one after the other, on the thread that calls it. */
export class PlanDesk {
  readonly #shop: LearnedShop;

  constructor(shop: Shop) {
    this.#shop = new LearnedShop(shop);
  }

  plan(job: PlanJob): Planned {
    try {
      const plan = this.#planOrder(job);
      return { ok: true, plan: planForRun(plan), compared: compared(plan) };
    } catch (error) {
      if (!(error instanceof PlanError)) throw error;
      return { ok: false, code: error.code, why: error.message, whyNot: error.whyNot };
    }
  }

  /** Ids of the plan's containers, one a parcel, without all that a run needs; null where there is no plan. */
  containers(job: PlanJob): readonly string[] | null {
    try {
      return this.#planOrder(job).parcels.map(({ container }) => container.id);
    } catch (error) {
      if (!(error instanceof PlanError)) throw error;
      return null;
    }
  }

  #planOrder({ order, pieces, day, without, beliefs, outOfStock }: PlanJob): OrderPlan {
    const bySku = new Map(pieces.map((piece) => [piece.sku, piece]));
    return planOrder({ order, pieces: bySku, shop: this.#shop.with(beliefs, outOfStock), day, without });
  }

  fits({ beliefs, outOfStock, ...request }: FitsJob): Fitted {
    try {
      const shop = this.#shop.with(beliefs, outOfStock);
      const view: FitsView = fitsView(whatFits({ ...request, shop }), shop, request.order.to);
      return { ok: true, json: JSON.stringify(view) };
    } catch (error) {
      if (!(error instanceof PlanError)) throw error;
      return { ok: false, code: error.code, why: error.message };
    }
  }
}
