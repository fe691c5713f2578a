import type { ParcelProgress, RunState } from './types.ts';

export const NO_PROGRESS: ParcelProgress = { weighing: null, label: null };

/** The state with something new known about the parcel at hand. */
export function withProgress(state: RunState, change: Partial<ParcelProgress>): RunState {
  const progress = state.parcels.map((_, index) => {
    const before = state.progress[index] ?? NO_PROGRESS;
    return index === state.parcel ? { ...before, ...change } : before;
  });
  return { ...state, progress };
}
