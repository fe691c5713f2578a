import { ORDERS_AN_HOUR, runDay, timesReal } from './day-run.ts';
import { circumstances, processorFigures, share, waits } from './run-figures.ts';
import { plain, type Figure } from '../figure.ts';
import type { BenchOptions } from '../options.ts';

const BENCHES = 20;
const SECONDS = 60;
const SHORT_S = 20;
/** So many times real time; at a hundred the machine, not the packers, says how fast it goes. */
const PACES = [10, 25, 40, 60] as const;

/** Twenty benches at paces that the machine keeps: what a screen takes while it is not at its end. */
export async function paced({ short }: Pick<BenchOptions, 'short'>): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const times of PACES) {
    const run = await runDay({
      benches: BENCHES,
      orders: BENCHES * ORDERS_AN_HOUR * 2,
      seconds: short ? SHORT_S : SECONDS,
      times,
    });
    const against = circumstances(run, BENCHES);
    const name = `${String(BENCHES)} benches at ${String(times)} times real time`;
    const figure = { bench: 'day', unit: 'ms', against };
    figures.push(
      plain({ ...figure, name: `${name}: reached`, value: timesReal(run, BENCHES), unit: 'times' }),
      plain({ ...figure, name: `${name}: scan to screen, p50`, value: share(run.scans, 0.5) }),
      ...waits(run, name, against),
      ...processorFigures(run, { name, against }),
    );
  }
  return figures;
}
