import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { Kysely, Migrator, SqliteDialect, type Migration } from 'kysely';
import { describe, expect, it } from 'vitest';
import { find } from '#server/office/search/find.ts';
import { openStore } from '#server/store/open.ts';
import { findOrder } from '#server/store/orders.ts';
import { allParcels } from '#server/store/parcels.ts';
import { allPieces } from '#server/store/pieces.ts';
import { loadBench } from '#server/store/runs.ts';
import { waitingParcels } from '#server/store/sacks.ts';
import { IDLE } from '#shared/run/initial.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const FOLDER = new URL('../../server/store/migrations/', import.meta.url);
const names = readdirSync(FOLDER)
  .filter((name) => /^\d.*\.ts$/.test(name))
  .map((name) => name.replace(/\.ts$/, ''))
  .sort();

async function migrationsTo(last: string): Promise<Record<string, Migration>> {
  const wanted = names.filter((name) => name <= last);
  const loaded = wanted.map(async (name) => {
    const exported = Object.values((await import(new URL(`${name}.ts`, FOLDER).href)) as Record<string, unknown>);
    const migration = exported.find((each) => typeof each === 'object' && each !== null && 'up' in each);
    return [name, migration as Migration] as const;
  });
  return Object.fromEntries(await Promise.all(loaded));
}

const ORDER = {
  id: '4711',
  pieces: [{ sku: 'OT-1', count: 1 }],
  buyer: 'Ida Tamberlow',
  address: ['2523 Larkspur Lane', 'Duluth MN'],
  to: { postcode: '55802', country: 'US' },
  shipBy: '2026-11-26T16:00:00Z',
};
const PIECE = { sku: 'OT-1', title: 'Moss cardigan', kind: 'cardigan', size: 'M', cloth: 'knit', place: 'A1' };
const PARCEL = { order: '4711', run: 'run-1', number: 1, of: 1, bench: 'bench-1', carrier: 'merrow-post' };

/** What stands in columns whose content somebody reads on the way; all others get something of their kind. */
const TELLING: Readonly<Record<string, unknown>> = {
  'shop_order.id': ORDER.id,
  'shop_order.body': JSON.stringify(ORDER),
  'shop_order.state': 'packing',
  'shop_order.ship_by': ORDER.shipBy,
  'shop_order.bench': 'bench-1',
  'shop_order.run': 'run-1',
  'piece.sku': PIECE.sku,
  'piece.body': JSON.stringify(PIECE),
  'order_piece.order_id': ORDER.id,
  'order_piece.sku': PIECE.sku,
  'parcel.order_id': ORDER.id,
  'parcel.run': 'run-1',
  'parcel.number': 1,
  'parcel.label': '92001234',
  'parcel.body': JSON.stringify(PARCEL),
  'parcel.finished_at': 5,
  'bench_state.bench': 'bench-1',
  'bench_state.seq': 3,
  'bench_state.body': JSON.stringify({ ...IDLE, order: ORDER, run: 'run-1', step: { at: 'gather' } }),
  'claim_lease.order_id': ORDER.id,
  'claim_lease.bench': 'bench-1',
  'claim_lease.run': 'run-1',
  'run.id': 'run-1',
  'run.order_id': ORDER.id,
};

interface Column {
  readonly name: string;
  readonly type: string;
  readonly pk: number;
}

const tablesOf = (file: SqliteDatabase.Database) =>
  (file.pragma('table_list') as readonly { readonly schema: string; readonly name: string; readonly type: string }[])
    .filter(({ schema, name, type }) => schema === 'main' && type === 'table' && !/^(sqlite_|kysely_)/.test(name))
    .map(({ name }) => name)
    // Kept by triggers: a row of it would be nobody's.
    .filter((name) => name !== 'search_entry')
    .sort();
const columnsOf = (file: SqliteDatabase.Database, table: string) =>
  file.pragma(`table_info("${table}")`) as readonly Column[];

/** A row in every table. */
function fill(file: SqliteDatabase.Database): void {
  file.pragma('foreign_keys = OFF');
  for (const table of tablesOf(file)) {
    const columns = columnsOf(file, table);
    const values = columns.map(({ name, type }) => {
      const told = TELLING[`${table}.${name}`];
      if (told !== undefined) return told;
      if (/int/i.test(type)) return 1;
      if (/blob/i.test(type)) return Buffer.from('bytes');
      return name === 'body' || name === 'facts' || name === 'may' ? '{}' : `a-${name}`;
    });
    const listed = columns.map(({ name }) => `"${name}"`).join(', ');
    file
      .prepare(`insert or ignore into "${table}" (${listed}) values (${columns.map(() => '?').join(', ')})`)
      .run(values);
  }
  file.pragma('foreign_keys = ON');
}

const rowsOf = (file: SqliteDatabase.Database, tables: readonly string[]) =>
  Object.fromEntries(
    tables.map((table) => {
      const columns = columnsOf(file, table).map(({ name }) => name);
      return [table, { columns, rows: file.prepare(`select * from "${table}"`).all() as Record<string, unknown>[] }];
    }),
  );

describe('a store of every schema there ever was, with a row in each of its tables', () => {
  it.each(names)('%s comes up to date with everything in it', async (last) => {
    const data = temporaryFolder('older');
    const file = new SqliteDatabase(join(data.path, 'benchfold.db'));
    const old = new Kysely<unknown>({ dialect: new SqliteDialect({ database: file }) });
    const migrations = await migrationsTo(last);
    const migrator = new Migrator({ db: old, provider: { getMigrations: () => Promise.resolve(migrations) } });
    expect((await migrator.migrateToLatest()).error).toBeUndefined();
    fill(file);
    const before = rowsOf(file, tablesOf(file));
    expect(Object.values(before).every(({ rows }) => rows.length > 0)).toBe(true);
    await old.destroy();

    const store = await openStore(data.path);
    const now = new SqliteDatabase(join(data.path, 'benchfold.db'), { readonly: true });
    expect(now.pragma('integrity_check')).toEqual([{ integrity_check: 'ok' }]);
    for (const [table, { columns, rows }] of Object.entries(before)) {
      const there = now.prepare(`select * from "${table}"`).all() as Record<string, unknown>[];
      // Migrations add columns and rows; what was there stays.
      const same = there.filter((row) =>
        rows.some((wanted) => columns.every((name) => sameValue(wanted[name], row[name]))),
      );
      expect({ table, kept: same.length }).toEqual({ table, kept: rows.length });
    }
    now.close();
    expect((await findOrder(store, ORDER.id))?.order).toEqual(ORDER);
    expect((await allPieces(store)).get(PIECE.sku)).toEqual(PIECE);
    expect(await allParcels(store)).toMatchObject([{ order: '4711', label: '92001234', finishedAt: 5 }]);
    expect(await loadBench(store, 'bench-1')).toMatchObject({
      seq: 3,
      state: { step: { at: 'gather' }, run: 'run-1' },
    });
    expect(await waitingParcels(store)).toEqual([]);
    const found = await find(store, 'tamber');
    expect(JSON.stringify(found)).toContain('4711');
    const leases = await store.selectFrom('claim_lease').select(['order_id', 'bench', 'run']).execute();
    expect(leases).toContainEqual({ order_id: '4711', bench: 'bench-1', run: 'run-1' });
    await store.destroy();
    data.remove();
  });
});

const sameValue = (one: unknown, other: unknown) =>
  Buffer.isBuffer(one) && Buffer.isBuffer(other) ? one.equals(other) : one === other;
