import { atLeast, atMost, plain, type Figure } from './figure.ts';
import type { BenchOptions } from './options.ts';
import { faultyDay } from '#tests/support/day/faulty-day.ts';
import { removeConfigFolders } from '#tests/support/config-folder.ts';

const KILLS = 300;

/** Hundreds of kills in one day; what was wrong after any of them is printed and counted. */
export async function bench({ whole, short }: BenchOptions): Promise<readonly Figure[]> {
  const kills = short ? KILLS / 5 : whole ? 3 * KILLS : KILLS;
  const end = await faultyDay({
    kills,
    benches: 3,
    seed: 9,
    livesFor: 40,
    onKill: (kill, { inputs, parcels, broken }) => {
      for (const each of broken) console.error(each);
      if (kill % 25 === 0) console.error(`${String(kill)} kills, ${String(inputs)} inputs, ${String(parcels)} parcels`);
    },
  });
  removeConfigFolders();
  const restarts = [...end.restarts].sort((one, other) => one - other);
  const against = `${String(kills)} kills at random moments, one in ten while starting; three benches`;
  const figure = { bench: 'faults', against };
  return [
    atMost({ ...figure, name: 'broken invariants', value: end.broken.length, unit: 'at most', goal: 0 }),
    atLeast({ ...figure, name: 'kills', value: kills, unit: 'kills', goal: Math.min(KILLS, kills) }),
    plain({ ...figure, name: 'inputs stored, each once', value: end.inputs, unit: 'inputs' }),
    plain({ ...figure, name: 'parcels finished', value: end.parcels, unit: 'parcels' }),
    plain({ ...figure, name: 'prints of unknown outcome', value: end.unknownPrints, unit: 'of all prints' }),
    plain({ ...figure, name: 'start until it answers, p50', value: restarts[restarts.length >> 1] ?? 0, unit: 'ms' }),
  ];
}
