import { createHash } from 'node:crypto';
import type SqliteDatabase from 'better-sqlite3';

/** What a table holds, told in few bytes: two tables with the same rows have the same digest. */
export interface TableContent {
  readonly rows: number;
  readonly sha256: string;
}

export type Contents = Readonly<Record<string, TableContent>>;

interface TableRow {
  readonly name: string;
  readonly type: string;
}

/**
 * The rows and a digest of each table that holds something of its own. What full-text indexes keep for themselves is made
 * anew from the tables and left out.
 */
export function contentsOf(file: SqliteDatabase.Database): Contents {
  const tables = file.pragma('table_list') as readonly (TableRow & { readonly schema: string })[];
  const names = tables
    .filter(({ schema, type, name }) => schema === 'main' && type === 'table' && !name.startsWith('sqlite_'))
    .map(({ name }) => name)
    .sort();
  return Object.fromEntries(names.map((name) => [name, contentOf(file, name)]));
}

function contentOf(file: SqliteDatabase.Database, table: string): TableContent {
  const quoted = `"${table.replaceAll('"', '""')}"`;
  const columns = file
    .prepare<[], { readonly name: string; readonly pk: number }>(`PRAGMA table_info(${quoted})`)
    .all();
  const key = columns
    .filter(({ pk }) => pk > 0)
    .sort((one, other) => one.pk - other.pk)
    .map(({ name }) => `"${name}"`);
  const order = key.length > 0 ? key.join(', ') : columns.map(({ name }) => `"${name}"`).join(', ');
  const hash = createHash('sha256').update(columns.map(({ name }) => name).join('\n'));
  let rows = 0;
  const statement = file.prepare<[], readonly unknown[]>(`SELECT * FROM ${quoted} ORDER BY ${order}`);
  for (const row of statement.raw().safeIntegers().iterate()) {
    rows += 1;
    for (const value of row) {
      const bytes = Buffer.isBuffer(value) ? value : Buffer.from(String(value));
      // The kind and length stand before each value, so that no two rows are written alike.
      hash.update(
        `${value === null ? 'null' : Buffer.isBuffer(value) ? 'blob' : typeof value} ${String(bytes.length)}:`,
      );
      hash.update(bytes);
    }
    hash.update('\n');
  }
  return { rows, sha256: hash.digest('hex') };
}

/** A line for every table in which two stores differ. */
export function differences(wanted: Contents, found: Contents): readonly string[] {
  const names = [...new Set([...Object.keys(wanted), ...Object.keys(found)])].sort();
  return names.flatMap((name) => {
    const [one, other] = [wanted[name], found[name]];
    if (one === undefined || other === undefined) return [`${name}: ${one === undefined ? 'too much' : 'missing'}`];
    if (one.rows !== other.rows) return [`${name}: expected ${String(one.rows)} rows, found ${String(other.rows)}`];
    return one.sha256 === other.sha256 ? [] : [`${name}: its ${String(one.rows)} rows are not as they were`];
  });
}
