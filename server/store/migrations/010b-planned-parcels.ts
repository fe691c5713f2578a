import type { Kysely, Migration } from 'kysely';

/** Planned parcels with their folds and drawings, each once. What was stored before holds its own in full. */
export const plannedParcels: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('planned_parcel')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('run', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .execute();
  },
};
