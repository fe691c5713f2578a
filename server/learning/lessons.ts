import { addLesson, allBeliefs, saveBelief, type KindBelief } from '#server/store/learning.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { closingEvidence, type Packed } from '#shared/fitting/closing-evidence.ts';
import { foldsOf } from '#shared/folding/fold-piece.ts';
import { FACTOR_PRIOR, learnClosing } from '#shared/garments/factor-learning.ts';
import { consider, priorBelief, singleUnknown } from '#shared/garments/learning.ts';
import { massScale } from '#shared/garments/mass.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import type { Weighing } from '#shared/run/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { toGrams } from '#shared/units/mass.ts';

/** Where something was seen. */
export interface Seen {
  readonly order: string;
  readonly run: string;
  readonly now: number;
}

type Beliefs = Map<string, KindBelief>;

async function beliefsIn(store: StoreOrTransaction): Promise<Beliefs> {
  return new Map((await allBeliefs(store)).map((belief) => [belief.kind, belief]));
}

function beliefOf(beliefs: Beliefs, kind: string): KindBelief {
  return beliefs.get(kind) ?? { kind, mass: null, factor: null };
}

/**
 * The pieces as the sums have them, without what was learned: the evidence is about how the sums are wrong. Null when the
 * shop's files no longer know a kind or a recipe of the parcel.
 */
function bySums(parcel: ParcelPlan, shop: Shop): readonly Packed[] | null {
  const packed: Packed[] = [];
  for (const { piece, fold } of parcel.pieces) {
    if (!shop.wardrobe.kinds.has(piece.kind)) return null;
    const again = foldsOf(piece, shop.wardrobe, shop.recipes).find(({ recipe }) => recipe === fold.recipe);
    if (again === undefined) return null;
    packed.push({ kind: piece.kind, block: again.block });
  }
  return packed;
}

/**
 * Learns that a parcel's container closed, or was too tight.
 * @param shop as its files say it, without what was learned
 */
export async function learnFromClosing(
  store: StoreOrTransaction,
  shop: Shop,
  parcel: ParcelPlan,
  closed: boolean,
  { order, run, now }: Seen,
): Promise<void> {
  const packed = bySums(parcel, shop);
  if (packed === null) return;
  const beliefs = await beliefsIn(store);
  const factors = new Map([...beliefs].map(([kind, { factor }]) => [kind, factor ?? FACTOR_PRIOR]));
  const means = new Map([...factors].map(([kind, { mean }]) => [kind, mean]));
  const evidence = closingEvidence(packed, parcel.container, parcel.wrap, closed, means);
  if (evidence === null) return;
  const lesson = learnClosing(factors, evidence);
  for (const [kind, factor] of lesson.beliefs) {
    if (lesson.learned) await saveBelief(store, { ...beliefOf(beliefs, kind), factor }, now);
    await addLesson(store, {
      kind,
      order,
      run,
      container: parcel.container.id,
      body: { about: 'closing', closed, chance: lesson.chance },
      learned: lesson.learned,
      at: now,
    });
  }
}

/**
 * Learns what the one piece of a parcel weighs that nobody had weighed before; of a parcel with a single piece, what that
 * weighs. Other weighings say nothing clean of any one kind.
 * @param shop as its files say it, without what was learned
 */
export async function learnFromWeighing(
  store: StoreOrTransaction,
  shop: Shop,
  parcel: ParcelPlan,
  weighing: Weighing,
  { order, run, now }: Seen,
): Promise<void> {
  const { pieces, container, wrap } = parcel;
  const packaging = toGrams(container.mass) + toGrams(wrap.massPerPiece) * pieces.length;
  const intake = pieces.map(({ piece }) =>
    pieces.length === 1 || piece.mass === undefined ? null : toGrams(piece.mass),
  );
  const grams = singleUnknown(toGrams(weighing.reading.mass) - packaging, intake);
  const unknown = pieces[intake.indexOf(null)]?.piece;
  const kind = unknown === undefined ? undefined : shop.wardrobe.kinds.get(unknown.kind);
  if (grams === null || unknown === undefined || kind === undefined) return;
  const belief = beliefOf(await beliefsIn(store), kind.id);
  const usual = grams / massScale(unknown, shop.wardrobe);
  const lesson = consider(belief.mass ?? priorBelief(kind.mass), usual);
  if (lesson.learned) await saveBelief(store, { ...belief, mass: lesson.belief }, now);
  await addLesson(store, {
    kind: kind.id,
    order,
    run,
    container: container.id,
    body: { about: 'mass', grams: usual, deviations: lesson.deviations },
    learned: lesson.learned,
    at: now,
  });
}
