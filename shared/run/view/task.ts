import { lighterChoices } from './lighter.ts';
import { liftCaution, type LiftCaution } from '#shared/care/lift-caution.ts';
import { peopleRules } from '#shared/people/rules.ts';
import { foldStops, guidanceOf, type Guidance } from '#shared/guidance/stops.ts';
import { digitsOf } from '#shared/run/entering.ts';
import { allPieces, missingPieces, parcelHere } from '#shared/run/here.ts';
import { isFoldedAhead } from '#shared/run/lies.ts';
import { nextBracket } from '#shared/run/pay.ts';
import type { PlannedPiece } from '#shared/planning/types.ts';
import type { RunFacts, RunState } from '#shared/run/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Mass } from '#shared/units/mass.ts';
import { matchMass } from '#shared/weighing/mismatch.ts';
import type { Localised } from '#shared/words/language.ts';
import type { Task } from '#shared/wire/views.ts';

/** What the middle of the screen is about. */
export function taskOf(state: RunState, facts: RunFacts, shop: Shop): Task {
  const { step } = state;
  const parcel = parcelHere(state);
  if (step.at === 'idle' || state.order === null || parcel === undefined) return { at: 'idle' };
  switch (step.at) {
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
      return foldTask(state, shop, step.piece, step.step);
    case 'fill':
      return { at: 'fill', cautions: fillCautions(state, shop), asUsual: asUsual(state) };
    case 'weigh':
      return { at: 'weigh' };
    case 'decide':
      return decideTask(state, facts, shop);
    case 'seal':
      return sealTask(state, shop);
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
        seconds: state.startedAt === null ? 0 : Math.max(0, Math.round((facts.now - state.startedAt) / 1000)),
      };
  }
}

/** Pockets are looked through on every piece that may have them; the kind says so. */
export function lookOverCautions(shop: Shop, kind: string | undefined): readonly string[] {
  const cautions = kind === undefined ? [] : (shop.wardrobe.kinds.get(kind)?.cautions ?? []);
  return cautions.filter((caution) => caution.startsWith('pockets'));
}

function fillCautions(state: RunState, shop: Shop): readonly string[] {
  const parcel = parcelHere(state);
  if (parcel === undefined) return [];
  const ofPieces = parcel.pieces.flatMap((each) => shop.wardrobe.kinds.get(each.piece.kind)?.cautions ?? []);
  const aboutPacking = ofPieces.filter((caution) => !caution.startsWith('pockets'));
  return [...new Set([...aboutPacking, ...parcel.container.cautions])];
}

/** Cartons are taped and trimmed; a heavy parcel is lifted with care, or by two. */
function sealCautions(state: RunState, lift: LiftCaution | null): readonly string[] {
  const knife = parcelHere(state)?.container.type === 'carton' ? ['knife'] : [];
  return lift === null ? knife : [...knife, lift.tooMuch ? 'lifting' : 'lifting-care'];
}

function sealTask(state: RunState, shop: Shop): Task {
  const parcel = parcelHere(state);
  const lift = parcel === undefined ? null : liftCaution(parcel.mass.mean, peopleRules(shop).lift);
  return { at: 'seal', cautions: sealCautions(state, lift), weighed: clearReading(state), lift };
}

/** What the scale said when that needed no decision. */
function clearReading(state: RunState): Mass | null {
  const weighing = state.progress[state.parcel]?.weighing;
  return weighing?.because === null ? weighing.reading.mass : null;
}

/** What was to be folded and stopped at nowhere. */
function asUsual(state: RunState): Extract<Task, { at: 'fill' }>['asUsual'] {
  if (isFoldedAhead(state)) return [];
  const untold = (parcelHere(state)?.pieces ?? []).filter(
    (planned) => planned.fold.steps.length > 0 && foldStops(planned, state.guidance).length === 0,
  );
  return untold.map(({ piece, fold }) => {
    const { width, length, thickness } = fold.block;
    return { piece: piece.title, recipe: fold.recipeName, block: { width, length, thickness } };
  });
}

function foldTask(state: RunState, shop: Shop, pieceIndex: number, stepIndex: number): Task {
  const pieces = parcelHere(state)?.pieces ?? [];
  const place = { pieceIndex, pieces: pieces.length, step: stepIndex };
  return foldTaskOf(pieces[pieceIndex], place, state.guidance, shop) ?? { at: 'fill', cautions: [], asUsual: [] };
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

function decideTask(state: RunState, facts: RunFacts, shop: Shop): Task {
  const weighing = state.progress[state.parcel]?.weighing;
  const parcel = parcelHere(state);
  if (!weighing || parcel === undefined || state.step.at !== 'decide') return { at: 'weigh' };
  return {
    at: 'decide',
    because: state.step.because,
    reading: weighing.reading,
    verdict: weighing.verdict,
    paid: parcel.offer.price,
    nextPrice: nextBracket(state)?.price ?? null,
    lighter: lighterChoices(parcel, shop),
    drift: facts.weigh.drift,
    expected: matchMass(weighing.verdict.total, parcel.mass).usual,
  };
}
