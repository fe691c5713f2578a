import { timesReal, type DayRun } from './day-run.ts';
import { atMost, plain, type Figure } from '../figure.ts';

export const share = (times: readonly number[], part: number): number => {
  const sorted = [...times].sort((one, other) => one - other);
  // Nothing that came to a screen is no good figure.
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? Infinity;
};

/** Under what circumstances: what the machine did beside it stands with each figure. */
export function circumstances(run: DayRun, benches: number): string {
  const { orders, seconds, serverCores, packerCores, load } = run;
  const cores = `server ${serverCores.toFixed(2)}, packers and devices ${packerCores.toFixed(2)} cores`;
  return `${String(orders)} orders in ${seconds.toFixed(0)} s, ${timesReal(run, benches).toFixed(0)} times real time; ${cores}; load ${load.toFixed(1)}`;
}

/** Of all figures these are the least other than on a quiet machine. */
export function processorFigures(run: DayRun, { name, against }: Pick<Figure, 'name' | 'against'>): readonly Figure[] {
  const { server, loop } = run.processorAnInput;
  const figure = (what: string, value: number) =>
    plain({ bench: 'day', name: `${name}: ${what}`, value, unit: 'ms', against });
  return [
    figure('processor time of the server for each input', server),
    ...(loop === null ? [] : [figure('of this the thread that serves benches', loop)]),
  ];
}

/** What a packer waits at most, but for one scan in a hundred; the first ones after a start apart. */
export function waits({ scans, warmScans }: DayRun, name: string, against: string): readonly Figure[] {
  const figure = { bench: 'day', unit: 'ms', against };
  return [
    plain({
      ...figure,
      name: `${name}: scan to screen, p99, with the first 20 s after a start`,
      value: share(scans, 0.99),
    }),
    atMost({ ...figure, name: `${name}: scan to screen, p99`, value: share(warmScans, 0.99), goal: 50 }),
  ];
}
