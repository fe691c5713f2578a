import { monitorEventLoopDelay } from 'node:perf_hooks';
import { seeded } from '#tests/support/seeded.ts';
import type { BenchPorts } from '#tests/support/day/day-shop.ts';
import { Packer, startDevices, type Devices } from '#tests/support/day/packer.ts';

/** Which benches a crew has, by their number from 1 on, and how quick its devices and hands are. */
export interface CrewWish {
  readonly benches: readonly number[];
  readonly haste: number;
  /** each bench begins an order in so many ms at the soonest */
  readonly everyMs: number;
}

export type CrewTold = { readonly work: string } | 'progress' | 'stop';
/** What a crew has seen since it was asked last: orders packed in all, steps in ms. */
export interface CrewSeen {
  readonly orders: number;
  readonly scans: readonly number[];
  readonly steps: readonly number[];
  /** processor time of this process in all, in seconds */
  readonly processor: number;
  /** how much later than wanted its own loop came round, p99 in ms: so much of what it measures may be its own */
  readonly late: number;
}
export type CrewAnswer = { readonly ports: readonly BenchPorts[] } | { readonly seen: CrewSeen };

const RESOLUTION_MS = 2;

/** Packers with their devices in a process of their own: what they cost is not the server's. */
async function serveCrew({ benches, haste, everyMs }: CrewWish): Promise<void> {
  const devices: Devices[] = [];
  for (const _ of benches) devices.push(await startDevices(haste));
  let scans: number[] = [];
  let steps: number[] = [];
  const packers = devices.map(
    (own, index) =>
      new Packer({
        bench: `bench-${String(benches[index])}`,
        devices: own,
        uniform: seeded(benches[index] ?? 0),
        haste,
        everyMs,
        firstAfterMs: (everyMs * index) / benches.length,
        onStep: (by, ms) => {
          steps.push(ms);
          if (by === 'scan') scans.push(ms);
        },
      }),
  );
  let working: Promise<void>[] = [];
  const delay = monitorEventLoopDelay({ resolution: RESOLUTION_MS });
  const say = (answer: CrewAnswer) => process.send?.(answer);
  const seen = (): CrewSeen => {
    const { user, system } = process.cpuUsage();
    const orders = packers.reduce((sum, packer) => sum + packer.orders, 0);
    const late = Math.max(0, delay.percentile(99) / 1e6 - RESOLUTION_MS);
    const told = { orders, scans, steps, processor: (user + system) / 1e6, late };
    scans = [];
    steps = [];
    return told;
  };
  process.on('message', (told: CrewTold) => {
    if (told === 'progress') say({ seen: seen() });
    else if (told === 'stop') {
      for (const packer of packers) packer.stop();
      void Promise.all(working).then(async () => {
        say({ seen: seen() });
        for (const own of devices) await own.stop();
        process.disconnect();
      });
    } else {
      delay.enable();
      working = packers.map((packer) => packer.work(told.work));
    }
  });
  say({ ports: devices.map(({ ports }) => ports) });
}

await serveCrew(JSON.parse(process.argv[2] ?? '') as CrewWish);
