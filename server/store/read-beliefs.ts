import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import type { KindBelief } from './learning.ts';
import { StoreError } from './store-error.ts';
import type { FactorBelief } from '#shared/garments/factor-learning.ts';
import type { MassBelief } from '#shared/garments/learning.ts';

interface Row {
  readonly kind: string;
  readonly mass: string | null;
  readonly factor: string | null;
}

/**
 * What a data folder's parcels have taught, read without writing anything, also while a server runs on it.
 * @throws StoreError cannot-open when there is no store, or none that has learned
 */
export function readBeliefs(folder: string): readonly KindBelief[] {
  let file: SqliteDatabase.Database | null = null;
  try {
    file = new SqliteDatabase(join(folder, 'benchfold.db'), { readonly: true, fileMustExist: true });
    const rows = file.prepare<[], Row>('SELECT kind, mass, factor FROM kind_belief ORDER BY kind').all();
    return rows.map(({ kind, mass, factor }) => ({
      kind,
      mass: mass === null ? null : (JSON.parse(mass) as MassBelief),
      factor: factor === null ? null : (JSON.parse(factor) as FactorBelief),
    }));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new StoreError(
      'cannot-open',
      `data folder ${folder}: expected a shop's store in benchfold.db (${why})`,
      error,
    );
  } finally {
    file?.close();
  }
}
