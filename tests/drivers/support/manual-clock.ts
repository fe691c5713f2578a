import type { Clock } from '#drivers/clock.ts';

export interface ManualClock extends Clock {
  /** Lets time pass; what falls due runs in its order. */
  advance(milliseconds: number): Promise<void>;
}

export function manualClock(start = 1_000_000): ManualClock {
  let now = start;
  let tasks: { readonly at: number; readonly task: () => void }[] = [];
  const settle = async (): Promise<void> => {
    for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
  };
  return {
    now: () => now,
    after(milliseconds, task) {
      const entry = { at: now + milliseconds, task };
      tasks.push(entry);
      return () => {
        tasks = tasks.filter((each) => each !== entry);
      };
    },
    async advance(milliseconds) {
      const end = now + milliseconds;
      await settle();
      for (;;) {
        const next = tasks.filter((each) => each.at <= end).sort((a, b) => a.at - b.at)[0];
        if (next === undefined) break;
        tasks = tasks.filter((each) => each !== next);
        now = Math.max(now, next.at);
        next.task();
        await settle();
      }
      now = end;
      await settle();
    },
  };
}
