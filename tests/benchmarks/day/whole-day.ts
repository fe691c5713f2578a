import { ORDERS_AN_HOUR, runDay, timesReal, type MemoryLook } from './day-run.ts';
import { circumstances, processorFigures, share } from './run-figures.ts';
import { atMost, plain, type Figure } from '../figure.ts';
import type { BenchOptions } from '../options.ts';

const BENCHES = 20;
const HOURS = 10;
/** A day that a machine cannot pack in this time is told as far as it came. */
const LONGEST_S = 1200;
const SHORT_S = 60;
/** Of fewer parts after the first nobody can say whether they grow. */
const FEWEST_PARTS = 3;

/** Least squares: what is added a part. */
function slope(values: readonly number[]): number {
  const middle = (values.length - 1) / 2;
  const mean = values.reduce((sum, each) => sum + each, 0) / values.length;
  let [above, below] = [0, 0];
  for (const [at, value] of values.entries()) {
    above += (at - middle) * (value - mean);
    below += (at - middle) ** 2;
  }
  return below === 0 ? 0 : above / below;
}

const told = ({ part, orders, seconds, heap, resident }: MemoryLook, parts: number) =>
  `part ${String(part)} of ${String(parts)}: ${String(orders)} orders after ${seconds.toFixed(0)} s; ` +
  `${resident.toFixed(0)} MB resident, heap ${heap.toFixed(1)} MB`;

/** What each part leaves behind in memory. */
function memoryFigures(
  memory: readonly MemoryLook[],
  parts: number,
  hours: number,
  against: string,
): readonly Figure[] {
  const figure = { bench: 'day', unit: 'MB', against };
  // The first part fills what is kept on purpose.
  const settled = memory.slice(1);
  const [resident, heap] = [settled.map((look) => look.resident), settled.map((look) => look.heap)];
  const list = (of: (look: MemoryLook) => number) => memory.map((look) => of(look).toFixed(0)).join(', ') || 'none';
  const perHour = parts / hours;
  const reached = `${String(memory.length)} of ${String(parts)} parts`;
  const shown = [
    plain({
      ...figure,
      name: `resident after ${reached}: ${list((look) => look.resident)}`,
      value: resident.at(-1) ?? 0,
    }),
    plain({ ...figure, name: `heap after each of them: ${list((look) => look.heap)}`, value: heap.at(-1) ?? 0 }),
  ];
  if (settled.length < FEWEST_PARTS) return shown;
  return [
    ...shown,
    atMost({ ...figure, name: `resident added an hour, ${reached}`, value: slope(resident) * perHour, goal: 10 }),
    atMost({ ...figure, name: `heap added an hour, ${reached}`, value: slope(heap) * perHour, goal: 2 }),
  ];
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
    onLook: (look) => console.error(told(look, parts)),
    profiles,
  });
  const packed = run.orders / (BENCHES * ORDERS_AN_HOUR);
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
    atMost({ ...figure, name: `${name}: scan to screen, p99`, value: share(run.scans, 0.99), goal: 50 }),
    plain({ ...figure, name: `${name}: any input to screen, p99`, value: share(run.steps, 0.99) }),
    ...processorFigures(run, { name, against }),
    ...memoryFigures(run.memory, parts, hours, against),
    plain({ ...figure, name: 'store for each parcel', value: run.bytesAParcel / 1024, unit: 'kB' }),
  ];
}
