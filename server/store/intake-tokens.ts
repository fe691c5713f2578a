import type { StoreOrTransaction } from './open.ts';
import type { ImportSubject } from '#shared/wire/office.ts';
import type { IntakeToken } from '#shared/wire/intake.ts';

export async function intakeTokens(store: StoreOrTransaction): Promise<readonly IntakeToken[]> {
  const rows = await store
    .selectFrom('intake_token')
    .select(['id', 'name', 'may', 'made_at', 'used_at', 'revoked_at'])
    .orderBy('id', 'desc')
    .execute();
  return rows.map(({ id, name, may, made_at, used_at, revoked_at }) => ({
    id,
    name,
    may: JSON.parse(may) as readonly ImportSubject[],
    madeAt: made_at,
    usedAt: used_at,
    revokedAt: revoked_at,
  }));
}

export async function addIntakeToken(
  store: StoreOrTransaction,
  token: {
    readonly name: string;
    readonly hash: string;
    readonly may: readonly ImportSubject[];
    readonly now: number;
  },
): Promise<void> {
  const { name, hash, may, now } = token;
  await store
    .insertInto('intake_token')
    .values({ name, hash, may: JSON.stringify(may), made_at: now, used_at: null, revoked_at: null })
    .execute();
}

/** The token with this hash, unless it was revoked; notes that it was used. */
export async function useIntakeToken(
  store: StoreOrTransaction,
  hash: string,
  now: number,
): Promise<{ readonly name: string; readonly may: readonly ImportSubject[] } | null> {
  const row = await store
    .updateTable('intake_token')
    .set({ used_at: now })
    .where('hash', '=', hash)
    .where('revoked_at', 'is', null)
    .returning(['name', 'may'])
    .executeTakeFirst();
  return row === undefined ? null : { name: row.name, may: JSON.parse(row.may) as readonly ImportSubject[] };
}

/** False when there is no such token, or it was revoked before. */
export async function revokeIntakeToken(store: StoreOrTransaction, id: number, now: number): Promise<boolean> {
  const result = await store
    .updateTable('intake_token')
    .set({ revoked_at: now })
    .where('id', '=', id)
    .where('revoked_at', 'is', null)
    .executeTakeFirst();
  return result.numUpdatedRows === 1n;
}
