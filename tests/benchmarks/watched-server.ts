import { readFileSync } from 'node:fs';
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

/** What it holds after a collection, in MB, and the processor time that it has taken, in seconds. */
export interface Held {
  readonly heap: number;
  readonly resident: number;
  /** with all its threads */
  readonly processor: number;
  /** of the thread alone that serves benches; null where the system does not tell */
  readonly loop: number | null;
}

export type Watch = 'begin' | 'end' | 'held' | 'stop';
export type Watched = { readonly url: string } | Held | { readonly delay: Delay; readonly most: Memory };

/** How often the loop is looked at, in ms: what is measured is how much later than that it comes round. */
const RESOLUTION = 2;

const TICKS_A_SECOND = 100;

/** Processor time of the first thread of this process, in seconds. */
function loopSeconds(): number | null {
  try {
    const stat = readFileSync(`/proc/self/task/${String(process.pid)}/stat`, 'utf8');
    // After the name, which may hold blanks: the 14th and the 15th of all.
    const [user = 0, system = 0] = stat
      .slice(stat.lastIndexOf(')') + 2)
      .split(' ')
      .slice(11, 13)
      .map(Number);
    return (user + system) / TICKS_A_SECOND;
  } catch {
    return null;
  }
}

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
      const loop = loopSeconds();
      global.gc?.();
      const { heapUsed, rss } = process.memoryUsage();
      say({ heap: heapUsed / 2 ** 20, resident: rss / 2 ** 20, processor: (user + system) / 1e6, loop });
    }
    if (watch === 'stop') void server.stop().then(() => process.exit(0));
  });
  say({ url: server.url });
}

await serve(process.argv[2] ?? '', process.argv[3] ?? 'config');
