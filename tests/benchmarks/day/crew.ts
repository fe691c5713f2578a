import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { CrewAnswer, CrewSeen, CrewTold, CrewWish } from './crew-process.ts';
import type { BenchPorts } from '#tests/support/day/day-shop.ts';

/** Packers in a process of their own. */
export interface Crew {
  readonly ports: readonly BenchPorts[];
  work(url: string): void;
  /** what was seen since it was asked last */
  progress(): Promise<CrewSeen>;
  stop(): Promise<CrewSeen>;
}

export async function crewOf(wish: CrewWish): Promise<Crew> {
  const crew = fork(fileURLToPath(new URL('./crew-process.ts', import.meta.url)), [JSON.stringify(wish)]);
  const answer = (told?: CrewTold): Promise<CrewAnswer> =>
    new Promise((done, failed) => {
      const ended = (code: number | null) => failed(new Error(`packers ended with ${String(code)}`));
      crew.once('exit', ended);
      crew.once('message', (message) => {
        crew.off('exit', ended);
        done(message as CrewAnswer);
      });
      if (told !== undefined) crew.send(told);
    });
  const seen = async (told: CrewTold): Promise<CrewSeen> => {
    const answered = await answer(told);
    if (!('seen' in answered)) throw new Error('packers told of no steps');
    return answered.seen;
  };
  const begun = await answer();
  if (!('ports' in begun)) throw new Error('packers told of no devices');
  return {
    ports: begun.ports,
    work: (url) => void crew.send({ work: url } satisfies CrewTold),
    progress: () => seen('progress'),
    stop: () => seen('stop'),
  };
}
