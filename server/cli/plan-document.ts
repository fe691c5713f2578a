import { chance, costDocument, gramsDocument, massDocument, millimetresDocument } from './documents.ts';
import { offerDocument } from './quote.ts';
import { rejectionWords, whyWords } from '#shared/planning/explain.ts';
import type { OrderPlan, ParcelPlan, PlannedPiece, PlanRejection } from '#shared/planning/types.ts';
import type { Language } from '#shared/words/language.ts';

function foldDocument({ piece, fold, mass }: PlannedPiece, language: Language) {
  return {
    piece: piece.sku,
    recipe: fold.recipe,
    steps: fold.steps.map((step) => step.words[language]),
    width: millimetresDocument(fold.block.width),
    length: millimetresDocument(fold.block.length),
    thickness: millimetresDocument(fold.block.thickness),
    mass: { expected: gramsDocument(mass.mean), sd: gramsDocument(mass.sd) },
    ...(fold.assumed.length === 0 ? {} : { assumed: fold.assumed }),
  };
}

function parcelDocument(parcel: ParcelPlan, language: Language) {
  const { fit, mass, toCome } = parcel;
  return {
    pieces: parcel.pieces.map(({ piece }) => piece.sku),
    container: parcel.container.id,
    ...(parcel.container.doubled === undefined ? {} : { doubleBag: parcel.container.doubled }),
    wrap: parcel.wrap.id,
    folds: parcel.pieces.map((piece) => foldDocument(piece, language)),
    fit: {
      verdict: fit.verdict,
      probability: chance(fit.probability),
      turned: fit.turned,
      piles: fit.piles ?? 1,
      limit: fit.limit,
      slack: {
        width: millimetresDocument(fit.slack.width),
        length: millimetresDocument(fit.slack.length),
        thickness: millimetresDocument(fit.slack.thickness),
      },
    },
    mass: { expected: gramsDocument(mass.mean), sd: gramsDocument(mass.sd), toCome: massDocument(toCome.mass) },
    offer: offerDocument(parcel.offer, language),
    cost: costDocument(parcel.cost),
  };
}

export function rejectionDocument(rejection: PlanRejection, language: Language) {
  return { ...rejection, why: rejectionWords(rejection, language) };
}

/** A plan as JSON; physical quantities in both systems, costs in minor units. */
export function planDocument(plan: OrderPlan, language: Language) {
  return {
    order: plan.order,
    parcels: plan.parcels.map((parcel) => parcelDocument(parcel, language)),
    cost: costDocument(plan.cost),
    why: whyWords(plan, language),
    ...(plan.promise === undefined ? {} : { promise: plan.promise }),
    proven: plan.proven,
    ...(plan.lowerBound === undefined ? {} : { lowerBound: { unit: 'minor', total: plan.lowerBound } }),
    alternatives: plan.alternatives.map(({ parcels, cost }) => ({
      parcels: parcels.map((parcel) => parcelDocument(parcel, language)),
      cost: costDocument(cost),
    })),
    whyNot: plan.whyNot.map((rejection) => rejectionDocument(rejection, language)),
  };
}
