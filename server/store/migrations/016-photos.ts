import type { Kysely, Migration } from 'kysely';

/** Photos of what was packed, or why there is none; and when what is kept for a time was last looked through. */
export const photos: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('photo')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('order_id', 'text', (column) => column.notNull())
      .addColumn('run', 'text', (column) => column.notNull())
      .addColumn('parcel', 'integer', (column) => column.notNull())
      .addColumn('what', 'text', (column) => column.notNull())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('person', 'text')
      .addColumn('taken_at', 'bigint', (column) => column.notNull())
      .addColumn('came_at', 'bigint', (column) => column.notNull())
      .addColumn('file', 'text')
      .addColumn('bytes', 'integer')
      .addColumn('width', 'integer')
      .addColumn('height', 'integer')
      .addColumn('missed', 'text')
      .addColumn('removed_at', 'bigint')
      .execute();
    await db.schema.createIndex('photo_order').on('photo').column('order_id').execute();
    await db.schema.createIndex('photo_file').on('photo').column('file').execute();
    await db.schema
      .createTable('sweep')
      .addColumn('what', 'text', (column) => column.primaryKey())
      .addColumn('at', 'bigint')
      .addColumn('held_at', 'bigint')
      .execute();
  },
};
