import type { RunState } from './types.ts';

/** A bench with nothing on it. */
export const IDLE: RunState = {
  run: null,
  order: null,
  parcels: [],
  nextBest: null,
  parcel: 0,
  step: { at: 'idle' },
  gathered: {},
  progress: [],
  tooTight: [],
  confirming: null,
  packer: null,
  language: null,
  repeats: 0,
  notice: null,
  lastScan: null,
  slip: 'none',
  startedAt: null,
  guidance: {},
  mistakes: [],
  practice: false,
  lies: null,
};
