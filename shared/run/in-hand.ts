import type { RunState } from './types.ts';

/** Whether an order is in hand: one that is packed only stays on the screen until the next one is taken. */
export function inHand({ order, step }: Pick<RunState, 'order' | 'step'>): boolean {
  return order !== null && step.at !== 'done';
}
