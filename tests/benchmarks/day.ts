import { growth } from './day/growth.ts';
import { paced } from './day/paced.ts';
import { replayedDay } from './day/replayed-day.ts';
import { wholeDay } from './day/whole-day.ts';
import { writtenAnew } from './day/written-anew.ts';
import { atMost, type Figure } from './figure.ts';
import type { BenchOptions } from './options.ts';

/** A high-volume day: what it grows to with benches, how quick screens are under it, what it costs in memory and disk. */
export async function bench({ short, only, profiles }: BenchOptions): Promise<readonly Figure[]> {
  const wanted = (part: string) => only.length === 0 || only.some((each) => part.includes(each));
  const parts: readonly (readonly [string, () => Promise<readonly Figure[]>])[] = [
    ['store written anew', () => writtenAnew()],
    ['replay', async () => [await replayedDay()]],
    ['growth', () => growth(wanted, { short, profiles })],
    ['paced', () => paced({ short })],
    ['whole day', () => wholeDay({ short, profiles })],
  ];
  const figures: Figure[] = [];
  for (const [name, measure] of parts) {
    // Which of the numbers of benches are wanted is seen there.
    if (name !== 'growth' && !wanted(name)) continue;
    try {
      figures.push(...(await measure()));
    } catch (error) {
      // The other parts may have cost half an hour.
      const why = error instanceof Error ? error.message : String(error);
      figures.push(atMost({ bench: 'day', name: `${name}: did not end`, value: 1, unit: '', goal: 0, against: why }));
    }
  }
  return figures;
}
