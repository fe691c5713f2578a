import { monitorEventLoopDelay } from 'node:perf_hooks';
import { serverOn } from '#tests/support/in-process-server.ts';

/** How long the loop was held up, in ms. */
export interface Delay {
  readonly p99: number;
  readonly most: number;
}

/** The most memory that the process ever held, in MB. */
export interface Memory {
  readonly resident: number;
}

/** What it holds after a collection, in MB, and the processor time that it has taken in all, in seconds. */
export interface Held {
  readonly heap: number;
  readonly resident: number;
  readonly processor: number;
}

export type Watch = 'begin' | 'end' | 'held' | 'stop';
export type Watched = { readonly url: string } | Held | { readonly delay: Delay; readonly most: Memory };

/** How often the loop is looked at, in ms: what is measured is how much later than that it comes round. */
const RESOLUTION = 2;

/**
 * A whole server in a process of its own, so that what asks it holds up no loop but its own. It says how late its loop came
 * round between `begin` and `end`.
 */
async function serve(data: string, config: string): Promise<void> {
  const server = await serverOn(config, data);
  const histogram = monitorEventLoopDelay({ resolution: RESOLUTION });
  const beyond = (nanoseconds: number) => Math.max(0, nanoseconds / 1e6 - RESOLUTION);
  const say = (watched: Watched) => process.send?.(watched);
  process.on('message', (watch: Watch) => {
    if (watch === 'begin') {
      histogram.reset();
      histogram.enable();
    }
    if (watch === 'end') {
      histogram.disable();
      say({
        delay: { p99: beyond(histogram.percentile(99)), most: beyond(histogram.max) },
        most: { resident: process.resourceUsage().maxRSS / 1024 },
      });
    }
    if (watch === 'held') {
      const { user, system } = process.cpuUsage();
      global.gc?.();
      const { heapUsed, rss } = process.memoryUsage();
      say({ heap: heapUsed / 2 ** 20, resident: rss / 2 ** 20, processor: (user + system) / 1e6 });
    }
    if (watch === 'stop') void server.stop().then(() => process.exit(0));
  });
  say({ url: server.url });
}

await serve(process.argv[2] ?? '', process.argv[3] ?? 'config');
