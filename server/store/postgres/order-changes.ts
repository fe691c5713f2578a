import { sql } from 'kysely';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { TouchedOrders } from '#server/store/touches.ts';

/**
 * Which orders were written into a PostgreSQL, by whatever server. Each is kept with the transaction that wrote it last; what
 * was looked at is known by its snapshot. Whatever a later look sees of a transaction that this snapshot did not is new: also
 * of one that began long before and was committed late.
 */
export class OrderChanges {
  readonly touched = new TouchedOrders({ look: () => undefined, pending: new Set() });
  /** all that this one shows was touched */
  #snapshot: string | null = null;

  /** Touches what was written since the last look; all orders at the first. */
  async look(store: StoreOrTransaction): Promise<void> {
    const seen = this.#snapshot;
    if (seen === null) {
      // Within a transaction, all orders stay due.
      if (store.isTransaction) return;
      // Of another database that this one was restored from: its transactions would be new for ever.
      await sql`delete from order_written
        where written_by >= pg_snapshot_xmax(pg_current_snapshot())`.execute(store);
      const { rows } = await sql<{ now: string }>`select pg_current_snapshot()::text as now`.execute(store);
      this.#snapshot = rows[0]?.now ?? null;
      return;
    }
    // One statement has one snapshot. The first condition is what an index can find.
    const { rows } = await sql<{ now: string; id: string | null }>`
      select pg_current_snapshot()::text as now, order_id as id from (values (1)) as one
        left join order_written on written_by >= pg_snapshot_xmin(${seen}::pg_snapshot)
          and not pg_visible_in_snapshot(written_by, ${seen}::pg_snapshot)`.execute(store);
    for (const { id } of rows) if (id !== null) this.touched.touch(id);
    // What a transaction sees may be undone, and older than what others have looked at.
    if (!store.isTransaction) this.#snapshot = rows[0]?.now ?? seen;
  }
}
