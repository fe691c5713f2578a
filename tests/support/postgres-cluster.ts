import { spawn, spawnSync } from 'node:child_process';
import { chownSync, existsSync, mkdirSync, openSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import pg from 'pg';

/** A PostgreSQL of its own in a folder, as no other program uses one. */
export interface Cluster {
  readonly folder: string;
  readonly port: number;
}

export const CLUSTER_USER = 'benchfold';
export const CLUSTER_PASSWORD = 'only for tests';
const DEBIAN = '/usr/lib/postgresql';

/** PostgreSQL refuses to run as the super-user. */
function unprivileged(): { readonly uid?: number; readonly gid?: number } {
  if (process.getuid?.() !== 0) return {};
  const users = readFileSync('/etc/passwd', 'utf8')
    .split('\n')
    .map((line) => line.split(':'));
  const user = users.find(([name]) => name === 'postgres') ?? users.find(([name]) => name === 'nobody');
  return { uid: Number(user?.[2] ?? 65_534), gid: Number(user?.[3] ?? 65_534) };
}

function program(name: string): string {
  const versions = existsSync(DEBIAN) ? readdirSync(DEBIAN).sort((a, b) => Number(b) - Number(a)) : [];
  const installed = versions.map((version) => join(DEBIAN, version, 'bin', name)).find((file) => existsSync(file));
  return installed ?? name;
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  await new Promise((done) => server.close(done));
  return port;
}

/**
 * Makes and starts one. Its socket lies in the folder, where everybody is trusted; over TCP the password is wanted.
 * @param durable what it has committed survives a pulled plug, as in a shop; without it, it is quicker
 */
export async function startCluster(folder: string, durable: boolean): Promise<Cluster> {
  const as = unprivileged();
  mkdirSync(folder, { recursive: true });
  const password = join(folder, 'password');
  writeFileSync(password, CLUSTER_PASSWORD, { mode: 0o600 });
  const { uid, gid } = as;
  if (uid !== undefined && gid !== undefined) for (const path of [folder, password]) chownSync(path, uid, gid);
  const data = join(folder, 'data');
  const made = spawnSync(
    program('initdb'),
    [
      ...['-D', data, '-U', CLUSTER_USER, '--encoding=UTF8', '--locale=C', '--no-sync', '--no-instructions'],
      ...['--auth-local=trust', '--auth-host=scram-sha-256', `--pwfile=${password}`],
    ],
    { ...as, cwd: folder, encoding: 'utf8' },
  );
  if (made.status !== 0) throw new Error(`initdb: ${made.stderr}${String(made.error ?? '')}`);
  const port = await freePort();
  const settings = {
    listen_addresses: '127.0.0.1',
    port: String(port),
    unix_socket_directories: folder,
    max_connections: '200',
    fsync: durable ? 'on' : 'off',
    full_page_writes: durable ? 'on' : 'off',
    autovacuum: durable ? 'on' : 'off',
  };
  const log = openSync(join(folder, 'log'), 'a');
  const server = spawn(
    program('postgres'),
    ['-D', data, ...Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`])],
    { ...as, cwd: folder, stdio: ['ignore', log, log], detached: true },
  );
  server.unref();
  const cluster = { folder, port };
  for (let tries = 0; ; tries++) {
    try {
      await query(cluster, 'postgres', 'select 1');
      return cluster;
    } catch (error) {
      if (tries > 200 || server.exitCode !== null) {
        throw new Error(`PostgreSQL did not start: ${readFileSync(join(folder, 'log'), 'utf8')}`, { cause: error });
      }
      await wait(50);
    }
  }
}

/** Stops what was started in a folder, if anything was, and removes it. */
export async function removeCluster(folder: string): Promise<void> {
  const pidFile = join(folder, 'data', 'postmaster.pid');
  if (existsSync(pidFile)) {
    const pid = Number(readFileSync(pidFile, 'utf8').split('\n')[0]);
    process.kill(pid, 'SIGQUIT');
    for (let tries = 0; existsSync(pidFile) && tries < 100; tries++) await wait(20);
  }
  rmSync(folder, { recursive: true, force: true });
}

/** The address of a database, by its socket. */
export function addressOf({ folder, port }: Cluster, database: string): string {
  return `postgres://${CLUSTER_USER}@localhost:${String(port)}/${database}?host=${encodeURIComponent(folder)}`;
}

export async function query(cluster: Cluster, database: string, statement: string): Promise<readonly object[]> {
  const client = new pg.Client({ connectionString: addressOf(cluster, database) });
  await client.connect();
  try {
    const { rows } = await client.query<object>(statement);
    return rows;
  } finally {
    await client.end();
  }
}
