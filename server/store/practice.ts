import type { StoreOrTransaction } from './open.ts';
import { NOTHING_KEPT, parcelsOf, ParcelShelf, type Kept, type StoredRun } from './planned-parcels.ts';
import type { PracticeInput } from '#shared/practice/practise.ts';
import { NO_PRACTICE, type Mark, type PracticeState } from '#shared/practice/types.ts';
import { IDLE } from '#shared/run/initial.ts';

export interface PracticeSnapshot {
  readonly seq: number;
  readonly state: PracticeState;
  /** of the parcels of its invented order, those that have a row of their own */
  readonly kept: Kept;
}

type Guided = Extract<PracticeState['screen'], { at: 'guided' }>;
/** As it is stored. */
type StoredScreen = Exclude<PracticeState['screen'], Guided> | (Omit<Guided, 'run'> & { readonly run: StoredRun });
type StoredPractice = Omit<PracticeState, 'screen'> & { readonly screen: StoredScreen };

/** Practice at a bench as it was last stored; none where there never was any. */
export async function loadPractice(store: StoreOrTransaction, bench: string): Promise<PracticeSnapshot> {
  const row = await store.selectFrom('practice_state').selectAll().where('bench', '=', bench).executeTakeFirst();
  if (row === undefined) return { seq: 0, state: NO_PRACTICE, kept: NOTHING_KEPT };
  const { screen = NO_PRACTICE.screen, ...stored } = JSON.parse(row.body) as Partial<StoredPractice>;
  const common = { ...NO_PRACTICE, ...stored };
  if (screen.at !== 'guided') return { seq: row.seq, state: { ...common, screen }, kept: NOTHING_KEPT };
  const { parcels, kept } = await parcelsOf(store, screen.run.parcels);
  const run = { ...IDLE, ...screen.run, parcels };
  return { seq: row.seq, state: { ...common, screen: { ...screen, run } }, kept };
}

/**
 * Stores an input together with the state that it leads to.
 * @param snapshot with the parcels that have a row already
 * @returns those that have one now
 */
export async function savePractice(
  store: StoreOrTransaction,
  bench: string,
  snapshot: PracticeSnapshot,
  { id, input, at }: { readonly id: string; readonly input: PracticeInput; readonly at: number },
): Promise<Kept> {
  const { seq, state } = snapshot;
  const shelf = new ParcelShelf(store, snapshot.kept);
  const { screen } = state;
  const stored: StoredScreen = screen.at === 'guided' ? { ...screen, run: await shelf.storedRun(screen.run) } : screen;
  const body = JSON.stringify({ ...state, screen: stored });
  await store
    .insertInto('practice_input')
    .values({ bench, seq, id, body: JSON.stringify(await shelf.storedInput(input, 'practice')), at })
    .execute();
  await store
    .insertInto('practice_state')
    .values({ bench, seq, body })
    .onConflict((conflict) => conflict.column('bench').doUpdateSet({ seq, body }))
    .execute();
  return screen.at === 'guided' ? shelf.keptOf(screen.run) : NOTHING_KEPT;
}

/** The number under which an input was stored, or null when it never was. */
export async function findPracticeInput(store: StoreOrTransaction, id: string): Promise<number | null> {
  const row = await store.selectFrom('practice_input').select('seq').where('id', '=', id).executeTakeFirst();
  return row?.seq ?? null;
}

export interface StoredMark extends Mark {
  readonly at: number;
}

export async function addMark(store: StoreOrTransaction, person: string, mark: Mark, at: number): Promise<void> {
  await store
    .insertInto('practice_mark')
    .values({ person, body: JSON.stringify(mark), at })
    .execute();
}

/** Everything that a person practised, oldest first. */
export async function marksOf(store: StoreOrTransaction, person: string): Promise<readonly StoredMark[]> {
  const rows = await store
    .selectFrom('practice_mark')
    .select(['body', 'at'])
    .where('person', '=', person)
    .orderBy('at')
    .orderBy('id')
    .execute();
  return rows.map(({ body, at }) => ({ ...(JSON.parse(body) as Mark), at }));
}

export interface SignedSkill {
  readonly skill: string;
  readonly by: string;
  readonly at: number;
}

/** The skills that a person has, by who signed them off last; what was withdrawn is not among them. */
export async function signedSkills(store: StoreOrTransaction, person: string): Promise<readonly SignedSkill[]> {
  const rows = await store
    .selectFrom('skill_signed')
    .select(['skill', 'signed_by as by', 'at'])
    .where('person', '=', person)
    .where('withdrawn_at', 'is', null)
    .orderBy('at')
    .execute();
  return [...new Map(rows.map((row) => [row.skill, row])).values()];
}

export async function signSkill(
  store: StoreOrTransaction,
  signed: SignedSkill & { readonly person: string },
): Promise<void> {
  const { person, skill, by, at } = signed;
  await store.insertInto('skill_signed').values({ person, skill, signed_by: by, at, withdrawn_at: null }).execute();
}

/** Takes a skill back; how many signatures that were. */
export async function withdrawSkill(
  store: StoreOrTransaction,
  person: string,
  skill: string,
  now: number,
): Promise<number> {
  const done = await store
    .updateTable('skill_signed')
    .set({ withdrawn_at: now })
    .where('person', '=', person)
    .where('skill', '=', skill)
    .where('withdrawn_at', 'is', null)
    .executeTakeFirst();
  return Number(done.numUpdatedRows);
}
