import { sql, type Kysely, type Migration } from 'kysely';

/** What the queue of a busy day needs: when an order came, how often it was changed, where it lies, and folding ahead. */
export const busyDay: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema.alterTable('shop_order').addColumn('came_at', 'bigint').execute();
    await schema
      .alterTable('shop_order')
      .addColumn('version', 'integer', (column) => column.notNull().defaultTo(0))
      .execute();
    await schema.alterTable('shop_order').addColumn('aside_place', 'integer').execute();
    await sql`update shop_order set came_at = changed_at`.execute(db);
    await sql`create index shop_order_aside on shop_order (aside_place) where aside_place is not null`.execute(db);
    await schema
      .createTable('change_count')
      .addColumn('what', 'text', (column) => column.primaryKey())
      .addColumn('number', 'integer', (column) => column.notNull())
      .execute();
    await schema
      .createTable('folded_ahead')
      .addColumn('order_id', 'text', (column) => column.primaryKey())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('basket', 'integer', (column) => column.notNull().unique())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('version', 'integer', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
    await schema
      .createTable('side_work_state')
      .addColumn('bench', 'text', (column) => column.primaryKey())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .execute();
    await schema
      .createTable('side_work_input')
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('id', 'text', (column) => column.notNull().unique())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('side_work_input_key', ['bench', 'seq'])
      .execute();
    await schema
      .createTable('fold_batch')
      .addColumn('bench', 'text', (column) => column.primaryKey())
      .addColumn('body', 'text', (column) => column.notNull())
      .execute();
  },
};
