import { ORDERS_AN_HOUR, runDay, timesReal, type MemoryLook } from './day-run.ts';
import { circumstances, processorFigures, share, waits } from './run-figures.ts';
import { atMost, plain, type Figure } from '../figure.ts';
import type { BenchOptions } from '../options.ts';

const BENCHES = 20;
const HOURS = 10;
/** A day that a machine cannot pack in this time is told as far as it came. */
const LONGEST_S = 1200;
const SHORT_S = 60;
/** In less nobody can say what memory grows by in an hour. */
const SHORTEST_H = 0.5;

const hoursOf = (orders: number): number => orders / (BENCHES * ORDERS_AN_HOUR);

/** Least squares: what is added an hour. */
function addedAnHour(memory: readonly MemoryLook[], of: (look: MemoryLook) => number): number {
  const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
  const hours = memory.map(({ orders }) => hoursOf(orders));
  const middle = mean(hours);
  const level = mean(memory.map(of));
  let [above, below] = [0, 0];
  for (const [index, look] of memory.entries()) {
    const away = (hours[index] ?? 0) - middle;
    above += away * (of(look) - level);
    below += away ** 2;
  }
  return below === 0 ? 0 : above / below;
}

const told = ({ orders, seconds, heap, resident }: MemoryLook) =>
  `${hoursOf(orders).toFixed(1)} simulated h: ${String(orders)} orders after ${seconds.toFixed(0)} s; ` +
  `${resident.toFixed(0)} MB resident, heap ${heap.toFixed(1)} MB`;

/** What the hours leave behind in memory. */
function memoryFigures(memory: readonly MemoryLook[], against: string): readonly Figure[] {
  const figure = { bench: 'day', unit: 'MB', against };
  const list = (values: readonly string[]) => values.join(', ');
  const hours = list(memory.map(({ orders }) => hoursOf(orders).toFixed(1)));
  const kinds = ['resident', 'heap'] as const;
  const shown = kinds.map((kind) => {
    const values = memory.map((look) => look[kind]);
    const name = `${kind} after ${hours} simulated h: ${list(values.map((value) => value.toFixed(0)))}`;
    return plain({ ...figure, name, value: values.at(-1) ?? 0 });
  });
  // The first part fills what is kept on purpose.
  const settled = memory.slice(1);
  if (hoursOf((settled.at(-1)?.orders ?? 0) - (settled[0]?.orders ?? 0)) < SHORTEST_H) return shown;
  const goals = { resident: 10, heap: 2 };
  const added = kinds.map((kind) =>
    atMost({
      ...figure,
      name: `${kind} added an hour`,
      value: addedAnHour(settled, (look) => look[kind]),
      goal: goals[kind],
    }),
  );
  return [...shown, ...added];
}

/** Ten hours of twenty benches at a hundred times real time: the screens under that load, and what the hours leave behind. */
export async function wholeDay({
  short,
  profiles,
}: Pick<BenchOptions, 'short' | 'profiles'>): Promise<readonly Figure[]> {
  const hours = short ? 1 : HOURS;
  const parts = short ? 4 : HOURS;
  const orders = BENCHES * ORDERS_AN_HOUR * hours;
  const run = await runDay({
    benches: BENCHES,
    orders,
    seconds: short ? SHORT_S : LONGEST_S,
    times: 100,
    looks: parts,
    onLook: (look) => console.error(told(look)),
    profiles,
  });
  const packed = hoursOf(run.orders);
  const end = run.orders >= orders ? 'to its end' : `time was up before its end`;
  if (run.orders < orders) console.error(`time was up after ${packed.toFixed(1)} of ${String(hours)} simulated hours`);
  const against = `${circumstances(run, BENCHES)}; ${packed.toFixed(1)} of ${String(hours)} simulated h, ${end}`;
  const name = `${String(BENCHES)} benches asked for 100 times real time`;
  const figure = { bench: 'day', unit: 'ms', against };
  return [
    plain({ ...figure, name: `${name}: reached`, value: timesReal(run, BENCHES), unit: 'times' }),
    plain({ ...figure, name: `${name}: simulated hours packed`, value: packed, unit: 'h' }),
    plain({ ...figure, name: `${name}: inputs stored`, value: run.inputs / run.seconds, unit: 'a second' }),
    plain({ ...figure, name: `${name}: scan to screen, p50`, value: share(run.scans, 0.5) }),
    ...waits(run, name, against),
    plain({ ...figure, name: `${name}: any input to screen, p99`, value: share(run.steps, 0.99) }),
    plain({ ...figure, name: `${name}: server's loop held up, p99`, value: run.late }),
    plain({ ...figure, name: `${name}: packers' own loop held up, p99`, value: run.packersLate }),
    ...processorFigures(run, { name, against }),
    ...memoryFigures(run.memory, against),
    plain({ ...figure, name: 'store for each parcel', value: run.bytesAParcel / 1024, unit: 'kB' }),
  ];
}
