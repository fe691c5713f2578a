import type { Kysely, Migration } from 'kysely';

/** What lies on the shelf: levels, every change of one, and what each day took. */
export const supplies: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('stock_level')
      .addColumn('item', 'text', (column) => column.primaryKey())
      .addColumn('on_hand', 'bigint', (column) => column.notNull())
      .addColumn('counted_at', 'bigint', (column) => column.notNull())
      .execute();
    await schema
      .createTable('stock_order')
      .addColumn('item', 'text', (column) => column.primaryKey())
      .addColumn('on_order', 'bigint', (column) => column.notNull())
      .execute();
    await schema
      .createTable('stock_move')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('item', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('amount', 'bigint', (column) => column.notNull())
      .addColumn('after', 'bigint')
      .addColumn('parcel', 'text')
      .addColumn('reason', 'text', (column) => column.notNull())
      .addColumn('who', 'text')
      .addColumn('at', 'bigint', (column) => column.notNull())
      .addUniqueConstraint('stock_move_once', ['item', 'parcel'])
      .execute();
    await schema.createIndex('stock_move_item').on('stock_move').columns(['item', 'id']).execute();
    await schema
      .createTable('stock_day')
      .addColumn('item', 'text', (column) => column.notNull())
      .addColumn('day', 'text', (column) => column.notNull())
      .addColumn('used', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('stock_day_key', ['item', 'day'])
      .execute();
  },
};
