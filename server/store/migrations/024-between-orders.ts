import { sql, type Kysely, type Migration } from 'kysely';

/** What every view of a bench between two orders asks, answered without reading all that was ever packed. */
export const betweenOrders: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await sql`create index parcel_on_its_way on parcel (finished_at, carrier) where left_at is null and stays is null`.execute(
      db,
    );
    await db.schema.createIndex('pack_person_at').on('pack').columns(['person', 'at']).execute();
    await db.schema.createIndex('run_bench').on('run').columns(['bench', 'started_at']).execute();
  },
};
