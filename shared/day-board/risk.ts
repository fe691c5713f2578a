import type { Pace } from './pace.ts';
import { probabilityAbove } from '#shared/weighing/normal.ts';

export const RISKS = ['missed', 'late', 'tight', 'safe'] as const;
/** safe: it will be packed in time; tight: it may not; late: it hardly will; missed: the collection has gone */
export type Risk = (typeof RISKS)[number];

/** Above this chance nobody need look. */
const SAFE = 0.95;
const LATE = 0.5;

/**
 * The chance that an order is packed before its collection. The orders before it and itself are packed one after the other
 * at so many benches; the time of each is independent, so their sum is nearly normal.
 * @param place in the queue, from 1
 * @param left seconds until the collection
 */
export function chanceInTime(place: number, benches: number, { mean, sd }: Pace, left: number): number {
  if (left <= 0) return 0;
  const turns = Math.ceil(place / Math.max(1, benches));
  return 1 - probabilityAbove(left, turns * mean, Math.sqrt(turns) * sd);
}

export function riskOf(chance: number, left: number): Risk {
  if (left <= 0) return 'missed';
  if (chance >= SAFE) return 'safe';
  return chance >= LATE ? 'tight' : 'late';
}
