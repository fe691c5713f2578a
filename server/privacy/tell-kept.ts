import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { sql } from 'kysely';
import { KEPT, type KeptData } from './kept.ts';
import { TAKEN_OUT } from './scrub.ts';
import { dialectOf } from '#server/store/dialect.ts';
import type { Store } from '#server/store/open.ts';

/** One place of the store with how much is in it now. */
export interface KeptCount extends KeptData {
  /** rows of the table with something in one of the columns */
  readonly rows: number;
}

/** A folder of the data folder in which files about people lie. */
export interface KeptFiles {
  readonly folder: 'photos' | 'recordings' | 'incoming' | 'backups';
  readonly files: number;
  readonly bytes: number;
}

export interface KeptOfPeople {
  /** names of buyers, each once, without those that were taken out */
  readonly buyers: number;
  readonly kept: readonly KeptCount[];
  readonly files: readonly KeptFiles[];
}

/** How much is kept of how many people, and where: counts alone, nobody's data. */
export async function keptOfPeople(store: Store, data: string): Promise<KeptOfPeople> {
  const kept: KeptCount[] = [];
  for (const each of KEPT) kept.push({ ...each, rows: await rowsOf(store, each) });
  const files: KeptFiles[] = [];
  for (const folder of ['photos', 'recordings', 'incoming', 'backups'] as const) {
    files.push({ folder, ...(await filesIn(join(data, folder))) });
  }
  return { buyers: await buyersOf(store), kept, files };
}

async function rowsOf(store: Store, { table, columns }: KeptData): Promise<number> {
  const filled = columns.map((column) => sql`${sql.ref(column)} is not null`);
  const { rows } = await sql<{ count: number }>`select count(*) as count from ${sql.table(table)}
    where ${sql.join(filled, sql` or `)}`.execute(store);
  return rows[0]?.count ?? 0;
}

async function buyersOf(store: Store): Promise<number> {
  const name =
    dialectOf(store) === 'sqlite' ? sql<string>`json_extract(body, '$.buyer')` : sql<string>`body::json ->> 'buyer'`;
  const { rows } = await sql<{ count: number }>`select count(distinct ${name}) as count from shop_order
    where ${name} <> ${TAKEN_OUT}`.execute(store);
  return rows[0]?.count ?? 0;
}

async function filesIn(folder: string): Promise<{ readonly files: number; readonly bytes: number }> {
  const names = await readdir(folder, { recursive: true }).catch(() => []);
  let [files, bytes] = [0, 0];
  for (const name of names) {
    const found = await stat(join(folder, name)).catch(() => null);
    if (found?.isFile() !== true) continue;
    files += 1;
    bytes += found.size;
  }
  return { files, bytes };
}
