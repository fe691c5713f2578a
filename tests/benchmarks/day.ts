import { atMost, plain, type Figure } from './figure.ts';
import { ORDERS_AN_HOUR, runDay, timesReal, type DayRun } from './day/day-run.ts';
import { replayedDay } from './day/replayed-day.ts';
import type { BenchOptions } from './options.ts';

const BENCHES = 20;
const HOURS = 10;
/** A day that a machine cannot pack in this time is told as far as it came. */
const LONGEST_S = 1500;
const SHORT_S = 60;
/** Each order with a collection of its own is the hardest for the counts, all with one the hardest for the turns. */
const FULL_SPEED = [
  ...[1, 5, 20, 50].map((benches) => ({ benches, leaving: 'each' as const })),
  { benches: 20, leaving: 'together' as const },
];

const share = (times: readonly number[], part: number) => {
  const sorted = [...times].sort((one, other) => one - other);
  // Nothing that came to a screen is no good figure.
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? Infinity;
};

/** Under what circumstances: what the machine did beside it stands with each figure. */
function circumstances(run: DayRun, benches: number): string {
  const { orders, seconds, serverCores, packerCores, load } = run;
  const cores = `server ${serverCores.toFixed(2)}, packers and devices ${packerCores.toFixed(2)} cores`;
  return `${String(orders)} orders in ${seconds.toFixed(0)} s, ${timesReal(run, benches).toFixed(0)} times real time; ${cores}; load ${load.toFixed(1)}`;
}

/** Of all figures these are the least other than on a quiet machine. */
function processorFigures(run: DayRun, { name, against }: Pick<Figure, 'name' | 'against'>): readonly Figure[] {
  const { server, loop } = run.processorAnInput;
  const figure = (what: string, value: number) =>
    plain({ bench: 'day', name: `${name}: ${what}`, value, unit: 'ms', against });
  return [
    figure('processor time of the server for each input', server),
    ...(loop === null ? [] : [figure('of this the thread that serves benches', loop)]),
  ];
}

function figuresOf(run: DayRun, benches: number, name: string): readonly Figure[] {
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

/** Least squares: what is added an hour. */
export function slope(values: readonly number[]): number {
  const middle = (values.length - 1) / 2;
  const mean = values.reduce((sum, each) => sum + each, 0) / values.length;
  let [above, below] = [0, 0];
  for (const [at, value] of values.entries()) {
    above += (at - middle) * (value - mean);
    below += (at - middle) ** 2;
  }
  return below === 0 ? 0 : above / below;
}

/** Ten hours of twenty benches at a hundred times real time: the screens under that load, and what the hours leave behind. */
async function wholeDay({ short, profiles }: Pick<BenchOptions, 'short' | 'profiles'>): Promise<readonly Figure[]> {
  const hours = short ? 1 : HOURS;
  const looks = short ? 4 : HOURS;
  const orders = BENCHES * ORDERS_AN_HOUR * hours;
  const run = await runDay({
    benches: BENCHES,
    orders,
    seconds: short ? SHORT_S : LONGEST_S,
    times: 100,
    looks,
    profiles,
  });
  const against = `${circumstances(run, BENCHES)}; ${String(hours)} simulated h wanted`;
  const name = `${String(BENCHES)} benches asked for 100 times real time`;
  const figure = { bench: 'day', unit: 'ms', against };
  // The first hour fills what is kept on purpose.
  const settled = run.memory.slice(1);
  const [resident, heap] = [settled.map((look) => look.resident), settled.map((look) => look.heap)];
  const all = run.memory.map((look) => look.resident.toFixed(0)).join(', ');
  const perHour = looks / hours;
  return [
    plain({ ...figure, name: `${name}: reached`, value: timesReal(run, BENCHES), unit: 'times' }),
    plain({ ...figure, name: `${name}: inputs stored`, value: run.inputs / run.seconds, unit: 'a second' }),
    plain({ ...figure, name: `${name}: scan to screen, p50`, value: share(run.scans, 0.5) }),
    atMost({ ...figure, name: `${name}: scan to screen, p99`, value: share(run.scans, 0.99), goal: 50 }),
    ...processorFigures(run, { name, against }),
    plain({ ...figure, name: `${name}: any input to screen, p99`, value: share(run.steps, 0.99) }),
    plain({ ...figure, name: `resident after each part of it: ${all}`, value: resident.at(-1) ?? 0, unit: 'MB' }),
    atMost({ ...figure, name: 'resident added an hour', value: slope(resident) * perHour, unit: 'MB', goal: 10 }),
    atMost({ ...figure, name: 'heap added an hour', value: slope(heap) * perHour, unit: 'MB', goal: 2 }),
    plain({ ...figure, name: 'store for each parcel', value: run.bytesAParcel / 1024, unit: 'kB' }),
  ];
}

/** A high-volume day: what it grows to with benches, how quick screens are under it, what it costs in memory and disk. */
export async function bench({ short, only, profiles }: BenchOptions): Promise<readonly Figure[]> {
  const wanted = (part: string) => only.length === 0 || only.some((each) => part.includes(each));
  const figures: Figure[] = [];
  for (const { benches, leaving } of FULL_SPEED) {
    const together = leaving === 'together' ? ', all orders with one collection' : '';
    const name = `${String(benches)} ${benches === 1 ? 'bench' : 'benches'} at full speed${together}`;
    if (!wanted(name)) continue;
    const run = await runDay({ benches, leaving, orders: 10_000, seconds: short ? 10 : 30, looks: 1, profiles });
    figures.push(...figuresOf(run, benches, name));
  }
  if (wanted('whole day')) figures.push(...(await wholeDay({ short, profiles })));
  if (wanted('replay')) figures.push(await replayedDay());
  return figures;
}
