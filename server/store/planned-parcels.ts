import type { StoreOrTransaction } from './open.ts';
import { StoreError } from './store-error.ts';
import { readParcel, writtenParcel } from '#server/planning/written-parcel.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import type { PracticeInput } from '#shared/practice/practise.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';

/** Stands for a planned parcel in what is stored of a run. */
export interface KeptParcel {
  /** its row */
  readonly kept: number;
  /** id of its container, which other benches ask about */
  readonly container: string;
}

/** Parcels that have a row of their own. */
export type Kept = ReadonlyMap<ParcelPlan, KeptParcel>;

export const NOTHING_KEPT: Kept = new Map();

/** A run's state as it is stored; one of an older version holds its parcels in full. */
export type StoredRun = Omit<RunState, 'parcels'> & { readonly parcels: readonly (ParcelPlan | KeptParcel)[] };

/**
 * Stores each planned parcel of a bench once, and what refers to it with every input. Made for one transaction: when that is
 * rolled back, what it put away is forgotten with it.
 */
export class ParcelShelf {
  readonly #store: StoreOrTransaction;
  readonly #kept: Map<ParcelPlan, KeptParcel>;

  /** @param before what earlier transactions have put away */
  constructor(store: StoreOrTransaction, before: Kept) {
    this.#store = store;
    this.#kept = new Map(before);
  }

  /** Parcels that were put away by another bench. */
  know(kept: Kept): void {
    for (const [parcel, each] of kept) this.#kept.set(parcel, each);
  }

  async put(parcels: readonly ParcelPlan[], run: string): Promise<readonly KeptParcel[]> {
    const put: KeptParcel[] = [];
    for (const parcel of parcels) put.push(this.#kept.get(parcel) ?? (await this.#add(parcel, run)));
    return put;
  }

  async #add(parcel: ParcelPlan, run: string): Promise<KeptParcel> {
    const { id } = await this.#store
      .insertInto('planned_parcel')
      .values({ run, body: writtenParcel(parcel) })
      .returning('id')
      .executeTakeFirstOrThrow();
    const kept = { kept: id, container: parcel.container.id };
    this.#kept.set(parcel, kept);
    return kept;
  }

  async storedRun(state: RunState): Promise<StoredRun> {
    return { ...state, parcels: await this.put(state.parcels, state.run ?? '') };
  }

  /** An input as it is stored. */
  async storedInput(input: RunInput | PracticeInput, run: string | null): Promise<object> {
    const plan = 'plan' in input ? input.plan : null;
    return plan === null ? input : { ...input, plan: { ...plan, parcels: await this.put(plan.parcels, run ?? '') } };
  }

  /** Of what was put away, what a bench still has to do with. */
  keptOf({ parcels }: Pick<RunState, 'parcels'>): Kept {
    const kept = new Map<ParcelPlan, KeptParcel>();
    for (const parcel of parcels) {
      const put = this.#kept.get(parcel);
      if (put !== undefined) kept.set(parcel, put);
    }
    return kept;
  }
}

/**
 * Planned parcels as they were put away.
 * @throws StoreError missing-row
 */
export async function parcelsOf(
  store: StoreOrTransaction,
  stored: readonly (ParcelPlan | KeptParcel)[],
): Promise<{ readonly parcels: readonly ParcelPlan[]; readonly kept: Kept }> {
  const ids = stored.flatMap((each) => ('kept' in each ? [each.kept] : []));
  if (ids.length === 0) return { parcels: stored as readonly ParcelPlan[], kept: NOTHING_KEPT };
  const rows = await store.selectFrom('planned_parcel').select(['id', 'body']).where('id', 'in', ids).execute();
  const bodies = new Map(rows.map(({ id, body }) => [id, body]));
  const kept = new Map<ParcelPlan, KeptParcel>();
  const parcels = stored.map((each) => {
    if (!('kept' in each)) return each;
    const body = bodies.get(each.kept);
    if (body === undefined) {
      throw new StoreError('missing-row', `expected planned parcel ${String(each.kept)} in the store, found none`);
    }
    const parcel = readParcel(body);
    kept.set(parcel, each);
    return parcel;
  });
  return { parcels, kept };
}
