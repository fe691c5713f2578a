import type { Kysely, Migration } from 'kysely';

/** Orders that were made one, and proposals that were declined. */
export const combinedOrders: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('combined_order')
      .addColumn('member', 'text', (column) => column.primaryKey())
      .addColumn('combination', 'text', (column) => column.notNull())
      .execute();
    await schema.createIndex('combined_order_whole').on('combined_order').column('combination').execute();
    await schema
      .createTable('combining_declined')
      .addColumn('orders', 'text', (column) => column.primaryKey())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
  },
};
