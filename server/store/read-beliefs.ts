import type { KindBelief } from './learning.ts';
import { readStore } from './read-only.ts';
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
  return readStore(folder, (file) => {
    const rows = file.prepare<[], Row>('SELECT kind, mass, factor FROM kind_belief ORDER BY kind').all();
    return rows.map(({ kind, mass, factor }) => ({
      kind,
      mass: mass === null ? null : (JSON.parse(mass) as MassBelief),
      factor: factor === null ? null : (JSON.parse(factor) as FactorBelief),
    }));
  });
}
