import Table from 'cli-table3';
import { runDay, type DayRun } from './day-run.ts';
import { circumstances, processorFigures, share } from './run-figures.ts';
import { plain, type Figure } from '../figure.ts';
import type { BenchOptions } from '../options.ts';

/** Each order with a collection of its own is the hardest for the counts, all with one the hardest for the turns. */
const FULL_SPEED = [
  ...[1, 5, 20, 50].map((benches) => ({ benches, leaving: 'each' as const })),
  { benches: 20, leaving: 'together' as const },
];
const ORDERS = 10_000;
const SECONDS = 30;
const SHORT_S = 10;

interface Grown {
  readonly name: string;
  readonly run: DayRun;
}

const columns = ({ run }: Grown): readonly (readonly [string, number])[] => [
  ['inputs a second', run.inputs / run.seconds],
  ['scan to screen p50, ms', share(run.scans, 0.5)],
  ['p99, ms', share(run.scans, 0.99)],
  ['loop held up p99, ms', run.late],
  ['processor an input, ms', run.processorAnInput.server],
  ['of this the loop, ms', run.processorAnInput.loop ?? NaN],
  ['kB a parcel', run.bytesAParcel / 1024],
];

/** What grows with the benches, a line each. */
function growthTable(grown: readonly Grown[]): string {
  const [first] = grown;
  if (first === undefined) return '';
  const head = ['', ...columns(first).map(([name]) => name)];
  const table = new Table({ head, style: { head: [], border: [], compact: true } });
  for (const each of grown) table.push([each.name, ...columns(each).map(([, value]) => value.toFixed(1))]);
  return table.toString();
}

function figuresOf({ run, name }: Grown, benches: number): readonly Figure[] {
  const against = circumstances(run, benches);
  const figure = (what: string, value: number, unit: string) =>
    plain({ bench: 'day', name: `${name}: ${what}`, value, unit, against });
  return [
    figure('inputs stored', run.inputs / run.seconds, 'a second'),
    figure('scan to screen, p50', share(run.scans, 0.5), 'ms'),
    figure('scan to screen, p99', share(run.scans, 0.99), 'ms'),
    figure('any input to screen, p99', share(run.steps, 0.99), 'ms'),
    figure("server's loop held up, p99", run.late, 'ms'),
    ...processorFigures(run, { name, against }),
    figure('store for each parcel', run.bytesAParcel / 1024, 'kB'),
  ];
}

/** So many benches at once, as fast as they go, with 10,000 orders waiting. */
export async function growth(
  wanted: (part: string) => boolean,
  { short, profiles }: Pick<BenchOptions, 'short' | 'profiles'>,
): Promise<readonly Figure[]> {
  const grown: Grown[] = [];
  const figures: Figure[] = [];
  for (const { benches, leaving } of FULL_SPEED) {
    const together = leaving === 'together' ? ', all orders with one collection' : '';
    const name = `${String(benches)} ${benches === 1 ? 'bench' : 'benches'} at full speed${together}`;
    if (!wanted(`growth: ${name}`)) continue;
    const seconds = short ? SHORT_S : SECONDS;
    const run = await runDay({ benches, leaving, orders: ORDERS, seconds, profiles });
    grown.push({ name, run });
    figures.push(...figuresOf({ name, run }, benches));
  }
  if (grown.length > 0) console.error(growthTable(grown));
  return figures;
}
