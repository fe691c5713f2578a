import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { chmodSync, copyFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterAll, expect, it } from 'vitest';
import type { Command } from '#shared/run/commands.ts';
import type { Ack } from '#shared/wire/events.ts';
import type { HealthReason, HealthView } from '#shared/wire/inside.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const MAIN = resolve(import.meta.dirname, '../../../build/server/main.js');
const data = temporaryFolder('disk');
const children: ChildProcess[] = [];

afterAll(() => {
  for (const child of children) child.kill('SIGKILL');
  data.remove();
});

/** A disk of its own needs a mount; where none is allowed the system's limit on a file's size stands in for it. */
const mayMount = spawnSync('unshare', ['-Urm', 'mount', '-t', 'tmpfs', 'tmpfs', data.path]).status === 0;

function started(script: string): {
  readonly child: ChildProcess;
  readonly url: Promise<string>;
  readonly said: () => string;
} {
  const child = spawn('sh', ['-c', script], {
    env: { ...process.env, PORT: '0', BENCHFOLD_DATA: data.path },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  children.push(child);
  let output = '';
  const url = new Promise<string>((found) => {
    const heard = (chunk: Buffer) => {
      output += chunk.toString();
      const port = /localhost:(\d+)\/office/.exec(output)?.[1];
      if (port !== undefined) found(`http://127.0.0.1:${port}`);
    };
    child.stdout.on('data', heard);
    child.stderr.on('data', heard);
  });
  return { child, url, said: () => output };
}

const NODE = `exec '${process.execPath}' '${MAIN}'`;

function limitFiles(pid: number, bytes: string): void {
  expect(spawnSync('prlimit', ['--pid', String(pid), `--fsize=${bytes}`]).status).toBe(0);
}

/** Takes the room away and gives it back. */
function fullDisk(pid: number): { fill(): void; empty(): void } {
  if (mayMount) {
    const filler = join(`/proc/${String(pid)}/root`, data.path, 'filler');
    return {
      fill: () => {
        const left = Buffer.alloc(1 << 16);
        try {
          for (;;) writeFileSync(filler, left, { flag: 'a' });
        } catch (error) {
          expect(error).toMatchObject({ code: 'ENOSPC' });
        }
      },
      empty: () => rmSync(filler),
    };
  }
  return {
    fill: () => limitFiles(pid, `${String(statSync(join(data.path, 'benchfold.db-wal')).size)}:unlimited`),
    empty: () => limitFiles(pid, 'unlimited'),
  };
}

/** A disk that takes nothing more from a program that runs, whoever it is: the system refuses its every byte in every file. */
const takesNothing = (pid: number) => ({
  fill: () => limitFiles(pid, '0:unlimited'),
  empty: () => limitFiles(pid, 'unlimited'),
});

async function reasonsOf(url: string): Promise<readonly HealthReason[]> {
  const { ok, parts } = (await (await fetch(`${url}/healthz`)).json()) as HealthView;
  expect(ok).toBe(true);
  return parts.filter(({ part }) => part === 'store' || part === 'disk').flatMap(({ reasons }) => reasons);
}

/** What a bench was answered, by the inputs' ids. */
class Answers {
  readonly stored: string[] = [];
  readonly refused: string[] = [];

  async give(bench: BenchClient, command: Command): Promise<Ack> {
    const id = randomUUID();
    const ack = await bench.input({ id, type: 'command', command, by: 'touch' });
    (ack.ok ? this.stored : this.refused).push(id);
    return ack;
  }
}

it('a disk that is full or takes nothing acknowledges nothing, moves nothing, is told, and all goes on when it writes again', async () => {
  const {
    child,
    url: found,
    said,
  } = started(mayMount ? `exec unshare -Urm sh -c "mount -t tmpfs -o size=12m tmpfs ${data.path} && ${NODE}"` : NODE);
  const url = await found;
  const bench = new BenchClient(url, 'bench-1');
  await bench.at('idle');
  // A shell may stay before what it started.
  const server = Number(spawnSync('pgrep', ['-P', String(child.pid)]).stdout.toString()) || (child.pid ?? 0);
  const answers = new Answers();
  const refusing = async () => {
    // The log ahead of the store may still have room in a page that it holds.
    let answer = await answers.give(bench, 'repeat');
    for (let tries = 0; answer.ok && tries < 300; tries++) answer = await answers.give(bench, 'repeat');
    expect(answer).toMatchObject({ ok: false, error: 'store-failed' });
    const before = bench.view;
    expect(await answers.give(bench, 'next')).toMatchObject({ ok: false, error: 'store-failed' });
    await bench.simulate({ do: 'scan', text: 'OT-0556' });
    await bench.until(({ view }) => view?.notice?.code === 'not-stored', 'the packer told');
    expect(bench.view).toMatchObject({ seq: before?.seq, task: { at: before?.task.at } });
    await expect.poll(() => reasonsOf(url)).toContain('store-not-written');
    expect(await reasonsOf(url)).toContain('disk-not-written');
  };
  const goingOn = async () => {
    expect(await answers.give(bench, 'next')).toMatchObject({ ok: true });
    await expect
      .poll(async () => (await reasonsOf(url)).filter((reason) => reason.endsWith('not-written')))
      .toEqual([]);
  };

  const full = fullDisk(server);
  full.fill();
  await refusing();
  full.empty();
  await goingOn();
  await bench.at('gather');

  const broken = takesNothing(server);
  broken.fill();
  await refusing();
  broken.empty();
  await goingOn();
  expect(said()).not.toContain('Error');
  bench.close();

  // A copy, since the disk is another world's.
  const root = mayMount ? `/proc/${String(server)}/root` : '/';
  const copy = temporaryFolder('disk-copy');
  for (const name of ['benchfold.db', 'benchfold.db-wal']) {
    copyFileSync(join(root, data.path, name), join(copy.path, name));
  }
  const file = new SqliteDatabase(join(copy.path, 'benchfold.db'));
  expect(file.pragma('quick_check')).toEqual([{ quick_check: 'ok' }]);
  const kept = new Set(file.prepare('select id from input').pluck().all());
  expect(answers.stored.filter((id) => !kept.has(id))).toEqual([]);
  expect(answers.refused.filter((id) => kept.has(id))).toEqual([]);
  file.close();
  copy.remove();
  const ended = new Promise((done) => child.once('exit', done));
  process.kill(server, 'SIGTERM');
  await ended;
}, 90_000);

it('a read-only disk keeps the server from starting, with one line', async () => {
  // Root may write everywhere, so that a mount or another user has to say no.
  chmodSync(data.path, 0o555);
  const readOnly = mayMount
    ? `exec unshare -Urm sh -c "mount --bind ${data.path} ${data.path} && mount -o remount,bind,ro ${data.path} && ${NODE}"`
    : process.getuid?.() === 0
      ? `exec setpriv --reuid=65534 --clear-groups '${process.execPath}' '${MAIN}'`
      : NODE;
  const { child, said } = started(readOnly);
  expect(await new Promise((done) => child.once('close', done))).toBe(1);
  chmodSync(data.path, 0o755);
  expect(said().trim().split('\n')).toHaveLength(1);
  expect(said()).toContain(`data folder ${data.path}: expected a folder that can be written to`);
}, 30_000);
