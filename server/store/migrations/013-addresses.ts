import type { Kysely, Migration } from 'kysely';

/** Addresses that somebody has looked at and found right, although they look wrong. */
export const addresses: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('address_checked')
      .addColumn('order_id', 'text', (column) => column.primaryKey())
      .addColumn('address', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
  },
};
