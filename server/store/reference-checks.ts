import type { StoreOrTransaction } from './open.ts';

/** One trial of a scale with a known mass, masses in base units. */
export interface ReferenceCheck {
  readonly reference: number;
  /** half-width of what the known mass may differ by */
  readonly plusMinus: number;
  readonly reading: number;
  readonly unit: string;
  readonly places: number;
  /** reading less reference */
  readonly deviation: number;
  readonly allowed: number;
  readonly passed: boolean;
  readonly who: string | null;
}

export interface StoredReferenceCheck extends ReferenceCheck {
  readonly bench: string;
  readonly at: number;
}

export async function saveReferenceCheck(
  store: StoreOrTransaction,
  bench: string,
  check: ReferenceCheck,
  at: number,
): Promise<void> {
  await store
    .insertInto('reference_check')
    .values({ bench, body: JSON.stringify(check), at })
    .execute();
}

/** The newest trials of a bench's scale, newest first. */
export async function referenceChecks(
  store: StoreOrTransaction,
  bench: string,
  most: number,
): Promise<readonly StoredReferenceCheck[]> {
  const rows = await store
    .selectFrom('reference_check')
    .selectAll()
    .where('bench', '=', bench)
    .orderBy('id', 'desc')
    .limit(most)
    .execute();
  return rows.map(({ bench: of, body, at }) => ({ ...(JSON.parse(body) as ReferenceCheck), bench: of, at }));
}
