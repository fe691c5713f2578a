import type { StoreOrTransaction } from './open.ts';
import type { FactorBelief } from '#shared/garments/factor-learning.ts';
import type { MassBelief } from '#shared/garments/learning.ts';

/** What parcels have taught of one kind; null where they have taught nothing. */
export interface KindBelief {
  readonly kind: string;
  readonly mass: MassBelief | null;
  readonly factor: FactorBelief | null;
}

/** Something seen at the bench that says something of a kind. */
export type LessonBody =
  | { readonly about: 'mass'; readonly grams: number; readonly deviations: number }
  | { readonly about: 'closing'; readonly closed: boolean; readonly chance: number };

export interface StoredLesson {
  readonly kind: string;
  readonly order: string;
  readonly run: string;
  readonly container: string;
  readonly body: LessonBody;
  /** false for what was too unlikely to be learned without a look */
  readonly learned: boolean;
  readonly at: number;
}

export async function allBeliefs(store: StoreOrTransaction): Promise<readonly KindBelief[]> {
  const rows = await store.selectFrom('kind_belief').selectAll().orderBy('kind').execute();
  return rows.map(({ kind, mass, factor }) => ({
    kind,
    mass: mass === null ? null : (JSON.parse(mass) as MassBelief),
    factor: factor === null ? null : (JSON.parse(factor) as FactorBelief),
  }));
}

export async function saveBelief(store: StoreOrTransaction, belief: KindBelief, now: number): Promise<void> {
  const row = {
    mass: belief.mass === null ? null : JSON.stringify(belief.mass),
    factor: belief.factor === null ? null : JSON.stringify(belief.factor),
    changed_at: now,
  };
  await store
    .insertInto('kind_belief')
    .values({ kind: belief.kind, ...row })
    .onConflict((conflict) => conflict.column('kind').doUpdateSet(row))
    .execute();
}

export async function addLesson(store: StoreOrTransaction, lesson: StoredLesson): Promise<void> {
  const { kind, order, run, container, body, learned, at } = lesson;
  await store
    .insertInto('lesson')
    .values({
      kind,
      about: body.about,
      order_id: order,
      run,
      container,
      body: JSON.stringify(body),
      learned: learned ? 1 : 0,
      at,
    })
    .execute();
}

/** What was shown and not learned, the latest first. */
export async function outliers(store: StoreOrTransaction): Promise<readonly StoredLesson[]> {
  const rows = await store.selectFrom('lesson').selectAll().where('learned', '=', 0).orderBy('id', 'desc').execute();
  return rows.map((row) => ({
    kind: row.kind,
    order: row.order_id,
    run: row.run,
    container: row.container,
    body: JSON.parse(row.body) as LessonBody,
    learned: false,
    at: row.at,
  }));
}

/** Forgets what was learned of a kind, and every lesson that it was learned from. */
export async function forgetKind(store: StoreOrTransaction, kind: string): Promise<void> {
  await store.deleteFrom('kind_belief').where('kind', '=', kind).execute();
  await store.deleteFrom('lesson').where('kind', '=', kind).execute();
}
