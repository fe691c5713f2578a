import { sql, type Kysely, type Migration } from 'kysely';
import { dialectOf } from '#server/store/dialect.ts';

/** The servers that serve a shop from one database, until when each is taken to be there, and which bench is whose. */
export const servers: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('server_lease')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('address', 'text', (column) => column.notNull())
      .addColumn('wants', 'text', (column) => column.notNull())
      .addColumn('until', 'bigint', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('bench_lease')
      .addColumn('bench', 'text', (column) => column.primaryKey())
      .addColumn('server', 'text', (column) => column.notNull())
      .addColumn('since', 'bigint', (column) => column.notNull())
      .execute();
    if (dialectOf(db) === 'sqlite') return;
    // Where the adapter between servers puts what is too long for a notification.
    await sql`create table socket_io_attachments (
      id bigserial unique, created_at timestamptz default now(), payload bytea)`.execute(db);
  },
};
