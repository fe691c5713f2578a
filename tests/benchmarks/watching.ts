import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Delay, Held, Memory, Watch, Watched } from './watched-server.ts';

/** What was seen of a server while something was done with it. */
export interface Seen {
  readonly delay: Delay;
  readonly most: Memory;
}

/** A server in a process of its own that says how late its loop came round. */
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
  const profiled = profiles === undefined ? [] : ['--cpu-prof', `--cpu-prof-dir=${profiles}`];
  const server = fork(fileURLToPath(new URL('./watched-server.ts', import.meta.url)), [folder, config], {
    execArgv: [...process.execArgv, '--expose-gc', ...profiled],
  });
  const told = (watch?: Watch): Promise<Watched> =>
    new Promise((done, failed) => {
      const ended = (code: number | null) => failed(new Error(`the watched server ended with ${String(code)}`));
      server.once('exit', ended);
      server.once('message', (answer) => {
        server.off('exit', ended);
        done(answer as Watched);
      });
      if (watch !== undefined) server.send(watch);
    });
  const begun = await told();
  if (!('url' in begun)) throw new Error('the watched server told no address');
  const watch = async (work: () => Promise<void>): Promise<Seen> => {
    server.send('begin' satisfies Watch);
    await work();
    const answer = await told('end');
    if (!('delay' in answer)) throw new Error('the watched server told no delay');
    return answer;
  };
  return {
    url: begun.url,
    while: watch,
    held: async () => {
      const answer = await told('held');
      if (!('heap' in answer)) throw new Error('the watched server told nothing of its memory');
      return answer;
    },
    memory: async () => (await watch(() => Promise.resolve())).most.resident,
    stop: async () => {
      const ended = new Promise((done) => server.once('exit', done));
      server.send('stop' satisfies Watch);
      await ended;
    },
  };
}
