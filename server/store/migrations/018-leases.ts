import { sql, type Kysely, type Migration } from 'kysely';

/** Until when a bench that has an order in hand is taken to be there, and which other bench was told that it is not. */
export const leases: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('claim_lease')
      .addColumn('order_id', 'text', (column) => column.primaryKey())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('run', 'text', (column) => column.notNull())
      .addColumn('until', 'bigint', (column) => column.notNull())
      .addColumn('offered_to', 'text')
      .addColumn('offered_at', 'bigint')
      .execute();
    await sql`insert into claim_lease (order_id, bench, run, until)
      select id, bench, run, changed_at from shop_order
      where state = 'packing' and bench is not null and run is not null`.execute(db);
  },
};
