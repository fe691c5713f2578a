import { lighterChoices } from './lighter.ts';
import { liftCaution, type LiftCaution } from '#shared/care/lift-caution.ts';
import { peopleRules } from '#shared/people/rules.ts';
import { foldStops, guidanceOf, type Guidance } from '#shared/guidance/stops.ts';
import { digitsOf } from '#shared/run/entering.ts';
import { allPieces, missingPieces, parcelHere } from '#shared/run/here.ts';
import { isFoldedAhead } from '#shared/run/lies.ts';
import { nextBracket } from '#shared/run/pay.ts';
import type { ParcelPlan, PlannedPiece } from '#shared/planning/types.ts';
import type { DecideBecause, RunFacts, RunState, Step } from '#shared/run/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Mass } from '#shared/units/mass.ts';
import { matchMass } from '#shared/weighing/mismatch.ts';
import type { Localised } from '#shared/words/language.ts';
import type { Task } from '#shared/wire/views.ts';

type StepOf<At extends Step['at']> = Extract<Step, { at: At }>;

/** What the middle of the screen is about. */
export function taskOf(state: RunState, facts: RunFacts, shop: Shop): Task {
  const { step } = state;
  const parcel = parcelHere(state);
  if (state.order === null || parcel === undefined) return { at: 'idle' };
  switch (step.at) {
    case 'idle':
      return { at: 'idle' };
    case 'gather':
      return { at: 'gather', missing: missingPieces(state).length };
    case 'look-over': {
      const pieces = allPieces(state);
      const piece = pieces[step.piece]?.piece;
      return {
        at: 'look-over',
        piece: piece?.title ?? '',
        index: step.piece,
        of: pieces.length,
        cautions: lookOverCautions(shop, piece?.kind),
      };
    }
    case 'fold':
      return foldTask(state, parcel, shop, step);
    case 'fill':
      return { at: 'fill', cautions: fillCautions(parcel, shop), asUsual: asUsual(state, parcel) };
    case 'weigh':
      return { at: 'weigh' };
    case 'decide':
      return decideTask(state, parcel, step.because, facts, shop);
    case 'seal':
      return sealTask(state, parcel, shop);
    case 'label':
      return {
        at: 'label',
        postcode: state.order.to.postcode,
        ...(step.stop === undefined ? {} : { stop: step.stop }),
        ...(step.entering === undefined ? {} : { entering: digitsOf(step.entering) }),
      };
    case 'done':
      return {
        at: 'done',
        order: state.order.id,
        seconds: secondsTaken(state, facts.now),
      };
  }
}

function secondsTaken({ startedAt, endedAt }: RunState, now: number): number {
  return startedAt === null ? 0 : Math.max(0, Math.round(((endedAt ?? now) - startedAt) / 1000));
}

/** Pockets are looked through on every piece that may have them; the kind says so. */
export function lookOverCautions(shop: Shop, kind: string | undefined): readonly string[] {
  const cautions = kind === undefined ? [] : (shop.wardrobe.kinds.get(kind)?.cautions ?? []);
  return cautions.filter((caution) => caution.startsWith('pockets'));
}

function fillCautions(parcel: ParcelPlan, shop: Shop): readonly string[] {
  const ofPieces = parcel.pieces.flatMap((each) => shop.wardrobe.kinds.get(each.piece.kind)?.cautions ?? []);
  const aboutPacking = ofPieces.filter((caution) => !caution.startsWith('pockets'));
  return [...new Set([...aboutPacking, ...parcel.container.cautions])];
}

/** Cartons are taped and trimmed; a heavy parcel is lifted with care, or by two. */
function sealCautions({ container }: ParcelPlan, lift: LiftCaution | null): readonly string[] {
  const knife = container.type === 'carton' ? ['knife'] : [];
  return lift === null ? knife : [...knife, lift.tooMuch ? 'lifting' : 'lifting-care'];
}

function sealTask(state: RunState, parcel: ParcelPlan, shop: Shop): Task {
  const lift = liftCaution(parcel.mass.mean, peopleRules(shop).lift);
  return { at: 'seal', cautions: sealCautions(parcel, lift), weighed: clearReading(state), lift };
}

/** What the scale said when that needed no decision. */
function clearReading(state: RunState): Mass | null {
  const weighing = state.progress[state.parcel]?.weighing;
  return weighing?.because === null ? weighing.reading.mass : null;
}

/** What was to be folded and stopped at nowhere. */
function asUsual(state: RunState, { pieces }: ParcelPlan): Extract<Task, { at: 'fill' }>['asUsual'] {
  if (isFoldedAhead(state)) return [];
  const untold = pieces.filter(
    (planned) => planned.fold.steps.length > 0 && foldStops(planned, state.guidance).length === 0,
  );
  return untold.map(({ piece, fold }) => {
    const { width, length, thickness } = fold.block;
    return { piece: piece.title, recipe: fold.recipeName, block: { width, length, thickness } };
  });
}

function foldTask({ guidance }: RunState, { pieces }: ParcelPlan, shop: Shop, { piece, step }: StepOf<'fold'>): Task {
  const place = { pieceIndex: piece, pieces: pieces.length, step };
  return foldTaskOf(pieces[piece], place, guidance, shop) ?? { at: 'idle' };
}

/** One step of a piece's fold, told as the guidance asks; null where there is no such step. */
export function foldTaskOf(
  planned: PlannedPiece | undefined,
  place: { readonly pieceIndex: number; readonly pieces: number; readonly step: number },
  guidance: Guidance,
  shop: Shop,
): Extract<Task, { at: 'fold' }> | null {
  const step = planned?.fold.steps[place.step];
  if (planned === undefined || step === undefined) return null;
  const { level, usual } = guidanceOf(guidance, planned.piece.kind);
  return {
    at: 'fold',
    piece: planned.piece.title,
    ...place,
    recipe: planned.fold.recipeName,
    steps: planned.fold.steps.length,
    words: step.words,
    spoken: step.spoken,
    why: step.why ?? null,
    drawing: step.drawing,
    block: planned.fold.block,
    told: level === 'full' ? 'step' : 'key',
    usual: level === 'quiet' && usual !== null && usual !== planned.fold.recipe ? usualName(shop, usual) : null,
  };
}

function usualName(shop: Shop, recipe: string): Localised | null {
  return shop.recipes.get(recipe)?.name ?? null;
}

function decideTask(state: RunState, parcel: ParcelPlan, because: DecideBecause, facts: RunFacts, shop: Shop): Task {
  const weighing = state.progress[state.parcel]?.weighing;
  if (!weighing) return { at: 'weigh' };
  return {
    at: 'decide',
    because,
    reading: weighing.reading,
    verdict: weighing.verdict,
    paid: parcel.offer.price,
    nextPrice: nextBracket(state)?.price ?? null,
    lighter: lighterChoices(parcel, shop),
    drift: facts.weigh.drift,
    expected: matchMass(weighing.verdict.total, parcel.mass).usual,
  };
}
