import { execFileSync, fork } from 'node:child_process';
import { resolve } from 'node:path';
import { databaseFor } from '#tests/support/shared-cluster.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** How long the loop was held up, in ms. */
export interface Delay {
  readonly p99: number;
  readonly most: number;
}

/** The most memory that the process ever held, in MB. */
export interface Memory {
  readonly resident: number;
}

/** What it holds after a collection, in MB, and the processor time that it has taken, in seconds. */
export interface Held {
  readonly heap: number;
  readonly resident: number;
  /** with all its threads */
  readonly processor: number;
  /** of the thread alone that serves benches; null where the system does not tell */
  readonly loop: number | null;
}

type Watch = 'begin' | 'end' | 'held';
type Watched = Held | { readonly delay: Delay; readonly most: Memory };

/** What was seen of a server while something was done with it. */
export interface Seen {
  readonly delay: Delay;
  readonly most: Memory;
}

/** The built server, as it is started for a shop, in a process of its own that says how late its loop came round. */
export interface WatchedServer {
  readonly url: string;
  while(work: () => Promise<void>): Promise<Seen>;
  /** the most that it ever held, in MB */
  memory(): Promise<number>;
  held(): Promise<Held>;
  stop(): Promise<void>;
}

/** @param profiles a folder for a profile of its processor time, which is written when it stops */
export async function watchedServer(folder: string, config = 'config', profiles?: string): Promise<WatchedServer> {
  execFileSync(process.execPath, [resolve(ROOT, 'server/build.mjs')]);
  const profiled = profiles === undefined ? [] : ['--cpu-prof', `--cpu-prof-dir=${profiles}`];
  const database = await databaseFor(folder);
  const server = fork(resolve(ROOT, 'build/server/main.js'), [], {
    execArgv: ['--expose-gc', '--import', new URL('./watched.mjs', import.meta.url).href, ...profiled],
    env: {
      ...process.env,
      PORT: '0',
      BENCHFOLD_DATA: folder,
      BENCHFOLD_CONFIG: resolve(ROOT, config),
      ...(database === null ? {} : { DATABASE_URL: database }),
    },
    stdio: ['ignore', 'pipe', 'inherit', 'ipc'],
  });
  const told = (watch: Watch): Promise<Watched> =>
    new Promise((done, failed) => {
      const ended = (code: number | null) => failed(new Error(`the watched server ended with ${String(code)}`));
      server.once('exit', ended);
      server.once('message', (answer) => {
        server.off('exit', ended);
        done(answer as Watched);
      });
      server.send(watch);
    });
  const url = await new Promise<string>((found, failed) => {
    let output = '';
    server.stdout?.on('data', (chunk: Buffer) => {
      output += chunk.toString();
      const port = /localhost:(\d+)\/office/.exec(output)?.[1];
      if (port !== undefined) found(`http://127.0.0.1:${port}`);
    });
    server.once('exit', (code) => failed(new Error(`the server ended with ${String(code)}: ${output}`)));
  });
  const watch = async (work: () => Promise<void>): Promise<Seen> => {
    server.send('begin' satisfies Watch);
    await work();
    const answer = await told('end');
    if (!('delay' in answer)) throw new Error('the watched server told no delay');
    return answer;
  };
  return {
    url,
    while: watch,
    held: async () => {
      const answer = await told('held');
      if (!('heap' in answer)) throw new Error('the watched server told nothing of its memory');
      return answer;
    },
    memory: async () => (await watch(() => Promise.resolve())).most.resident,
    stop: async () => {
      const ended = new Promise((done) => server.once('exit', done));
      server.kill('SIGTERM');
      await ended;
    },
  };
}
