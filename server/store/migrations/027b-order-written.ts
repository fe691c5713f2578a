import { sql, type Kysely, type Migration } from 'kysely';
import { dialectOf } from '#server/store/dialect.ts';

/**
 * Which transaction wrote an order last, where several servers write (`postgres/order-changes.ts`). Once for each statement,
 * so that thousands of orders of a file cost one.
 */
export const orderWritten: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    if (dialectOf(db) === 'sqlite') return;
    const run = (statement: string) => sql.raw(statement).execute(db);
    await run('create table order_written (order_id text collate "C" primary key, written_by xid8 not null)');
    await run('create index order_written_by on order_written (written_by)');
    await run(`create function order_written() returns trigger language plpgsql as $body$ begin
      insert into order_written select id, pg_current_xact_id() from written
        on conflict (order_id) do update set written_by = excluded.written_by;
      return null; end $body$`);
    for (const [event, rows] of [
      ['insert', 'new'],
      ['update', 'new'],
      ['delete', 'old'],
    ] as const) {
      await run(`create trigger order_written_${event} after ${event} on shop_order
        referencing ${rows} table as written for each statement execute function order_written()`);
    }
  },
};
