import { readFileSync } from 'node:fs';
import { monitorEventLoopDelay } from 'node:perf_hooks';

// Runs in the built server's own process, before it: says over the channel to its parent how late its loop came round, and what
// it holds. The words of both directions are in watching.ts.

/** How often the loop is looked at, in ms: what is measured is how much later than that it comes round. */
const RESOLUTION = 2;

const TICKS_A_SECOND = 100;

/** Processor time of the first thread of this process, in seconds; null where the system does not tell. */
function loopSeconds() {
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

const histogram = monitorEventLoopDelay({ resolution: RESOLUTION });
const beyond = (nanoseconds) => Math.max(0, nanoseconds / 1e6 - RESOLUTION);

process.on('message', (watch) => {
  if (watch === 'begin') {
    histogram.reset();
    histogram.enable();
  }
  if (watch === 'end') {
    histogram.disable();
    process.send({
      delay: { p99: beyond(histogram.percentile(99)), most: beyond(histogram.max) },
      most: { resident: process.resourceUsage().maxRSS / 1024 },
    });
  }
  if (watch === 'held') {
    const { user, system } = process.cpuUsage();
    const loop = loopSeconds();
    globalThis.gc?.();
    const { heapUsed, rss } = process.memoryUsage();
    process.send({ heap: heapUsed / 2 ** 20, resident: rss / 2 ** 20, processor: (user + system) / 1e6, loop });
  }
});
