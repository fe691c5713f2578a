import type { StoreOrTransaction } from './open.ts';
import type { GuidanceLevel } from '#shared/guidance/level.ts';
import type { MistakeKind } from '#shared/run/types.ts';

/** One kind of garment in one finished run of one person. */
export interface Pack {
  readonly run: string;
  readonly person: string;
  readonly kind: string;
  readonly pieces: number;
  /** the fold of the last piece of the kind; null for what is not folded */
  readonly recipe: string | null;
  readonly mistakes: readonly MistakeKind[];
  /** worked seconds a piece; null where other kinds or other hands were in it */
  readonly seconds: number | null;
  readonly level: GuidanceLevel;
  readonly at: number;
}

export async function addPack(store: StoreOrTransaction, pack: Pack): Promise<void> {
  await store
    .insertInto('pack')
    .values({ ...pack, mistakes: JSON.stringify(pack.mistakes) })
    .execute();
}

/** Everything that a person packed, oldest first. */
export async function packsOf(store: StoreOrTransaction, person: string): Promise<readonly Pack[]> {
  const rows = await store
    .selectFrom('pack')
    .selectAll()
    .where('person', '=', person)
    .orderBy('at')
    .orderBy('id')
    .execute();
  return rows.map(({ id: _, ...row }) => ({ ...row, mistakes: JSON.parse(row.mistakes) as readonly MistakeKind[] }));
}

/** How many runs in a row, up to now, a person has packed without a mistake. */
export async function cleanRunsNow(store: StoreOrTransaction, person: string): Promise<number> {
  const mistake = await store
    .selectFrom('pack')
    .select(['id', 'at', 'run'])
    .where('person', '=', person)
    .where('mistakes', '!=', '[]')
    .orderBy('at', 'desc')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst();
  const own = store
    .selectFrom('pack')
    .select((select) => select.fn.count<number>('run').distinct().as('runs'))
    .where('person', '=', person);
  const since =
    mistake === undefined
      ? own
      : own
          .where('at', '>=', mistake.at)
          .where((is) => is.or([is('at', '>', mistake.at), is('id', '>', mistake.id)]))
          .where('run', '!=', mistake.run);
  return (await since.executeTakeFirst())?.runs ?? 0;
}

export interface GuidanceChoice {
  readonly kind: string;
  readonly level: GuidanceLevel;
  readonly at: number;
}

export async function addGuidanceChoice(
  store: StoreOrTransaction,
  choice: GuidanceChoice & { readonly person: string },
): Promise<void> {
  await store.insertInto('guidance_choice').values(choice).execute();
}

/** What a person set by hand, oldest first. */
export async function guidanceChoicesOf(store: StoreOrTransaction, person: string): Promise<readonly GuidanceChoice[]> {
  return store
    .selectFrom('guidance_choice')
    .select(['kind', 'level', 'at'])
    .where('person', '=', person)
    .orderBy('at')
    .orderBy('id')
    .execute();
}
