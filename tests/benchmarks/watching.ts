import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Delay, Memory, Watch, Watched } from './watched-server.ts';

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
  /** what its heap holds after a collection, in MB */
  heap(): Promise<number>;
  stop(): Promise<void>;
}

export async function watchedServer(folder: string, config = 'config'): Promise<WatchedServer> {
  const server = fork(fileURLToPath(new URL('./watched-server.ts', import.meta.url)), [folder, config], {
    execArgv: [...process.execArgv, '--expose-gc'],
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
    heap: async () => {
      const answer = await told('heap');
      return 'heap' in answer ? answer.heap : 0;
    },
    memory: async () => (await watch(() => Promise.resolve())).most.resident,
    stop: async () => {
      const ended = new Promise((done) => server.once('exit', done));
      server.send('stop' satisfies Watch);
      await ended;
    },
  };
}
