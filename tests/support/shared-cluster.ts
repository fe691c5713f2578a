import { createHash, randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { addressOf, query, removeCluster, startCluster, type Cluster } from './postgres-cluster.ts';
import { codeOf } from '#server/store/postgres/opening-error.ts';

const FOLDER = 'BENCHFOLD_TEST_POSTGRES';

/** Before all tests: where the one PostgreSQL of the run would lie; it is started by the first test that wants it. */
export function setup(): void {
  process.env[FOLDER] ??= join(tmpdir(), `benchfold-postgres-${randomUUID().slice(0, 8)}`);
}

/** After all tests. */
export async function teardown(): Promise<void> {
  const folder = process.env[FOLDER];
  if (folder !== undefined) await removeCluster(folder);
}

export async function sharedCluster(): Promise<Cluster> {
  const folder = process.env[FOLDER];
  if (folder === undefined) throw new Error('the tests were started without tests/support/shared-cluster.ts');
  const ready = join(folder, 'ready');
  if (isFirst(folder)) {
    const cluster = await startCluster(folder, false);
    writeFileSync(ready, String(cluster.port));
    return cluster;
  }
  for (let tries = 0; !existsSync(ready); tries++) {
    if (tries > 600) throw new Error('the PostgreSQL of the tests did not start');
    await wait(50);
  }
  return { folder, port: Number(readFileSync(ready, 'utf8')) };
}

/** Of several test files at once one makes the folder. */
function isFirst(folder: string): boolean {
  try {
    mkdirSync(folder);
    return true;
  } catch {
    return false;
  }
}

/** Set where the tests of a store run on PostgreSQL (`vitest.config.ts`). */
const ON_POSTGRES = 'BENCHFOLD_TESTS_ON_POSTGRES';

/** The database that stands for the store of a data folder; null where the tests run on the one in the folder itself. */
export async function databaseFor(data: string): Promise<string | null> {
  return process.env[ON_POSTGRES] === undefined ? null : databaseOf(data);
}

/** The database of a name, made when it is asked for first. */
export async function databaseOf(name: string): Promise<string> {
  const cluster = await sharedCluster();
  const database = `test_${createHash('sha256').update(name).digest('hex').slice(0, 12)}`;
  await query(cluster, 'postgres', `create database ${database}`).catch((error: unknown) => {
    if (codeOf(error) !== DUPLICATE_DATABASE) throw error;
  });
  return addressOf(cluster, database);
}

const DUPLICATE_DATABASE = '42P04';
