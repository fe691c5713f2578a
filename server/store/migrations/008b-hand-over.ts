import { sql, type Kysely, type Migration } from 'kysely';

/** Which parcels lie in which sack and which have left. Parcels of before are taken to have left. */
export const handOver: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('sack')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('carrier', 'text', (column) => column.notNull())
      .addColumn('day', 'text', (column) => column.notNull())
      .addColumn('at', 'text', (column) => column.notNull())
      .addColumn('bench', 'text')
      .addColumn('opened_at', 'bigint', (column) => column.notNull())
      .addColumn('closed_at', 'bigint')
      .addColumn('closed_by', 'text')
      .execute();
    // A carrier has one open sack, a bench loads one.
    await sql`create unique index sack_open on sack (carrier) where closed_at is null`.execute(db);
    await sql`create unique index sack_bench on sack (bench) where bench is not null`.execute(db);
    await schema.createIndex('sack_closed').on('sack').columns(['carrier', 'closed_at']).execute();
    const added: readonly (readonly [string, 'text' | 'bigint' | 'integer'])[] = [
      ['carrier', 'text'],
      ['sack', 'integer'],
      ['sacked_at', 'bigint'],
      ['left_at', 'bigint'],
      ['stays', 'text'],
    ];
    for (const [name, type] of added) await schema.alterTable('parcel').addColumn(name, type).execute();
    await sql`update parcel set left_at = finished_at, carrier = json_extract(body, '$.carrier')`.execute(db);
    await sql`create index parcel_waiting on parcel (id) where left_at is null`.execute(db);
    await schema.createIndex('parcel_sack').on('parcel').column('sack').execute();
    await schema.createIndex('parcel_order').on('parcel').column('order_id').execute();
  },
};
