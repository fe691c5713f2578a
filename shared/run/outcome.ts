import type { Notice, NoticeCode, RunEffect, RunState, Transition } from './types.ts';

const TONES: Readonly<Partial<Record<NoticeCode, Notice['tone']>>> = {
  'piece-found': 'well',
  'container-right': 'well',
  'label-right': 'well',
  'number-so-far': 'well',
  'set-aside-done': 'well',
  undone: 'well',
  cancelled: 'well',
  released: 'well',
  'packer-changed': 'well',
  'signed-off': 'well',
  'guidance-changed': 'well',
  'order-folded': 'well',
  'laid-in-basket': 'well',
  'list-printed': 'well',
  'batch-ended': 'well',
  'piece-not-in-order': 'stop',
  'code-not-known': 'stop',
  'container-wrong': 'stop',
  'label-wrong-postcode': 'stop',
  'label-used-before': 'stop',
  'label-other-number': 'stop',
  'label-bad-check-digit': 'stop',
  'scale-fault': 'stop',
  'skill-needed': 'stop',
};

/** A notice with the tone that its code always has. */
export function notice(code: NoticeCode, values: Notice['values'] = {}): Notice {
  return { tone: TONES[code] ?? 'attention', code, values };
}

/** The run goes on: the state changes and the outside may have something to do. */
export function goOn(state: RunState, ...effects: readonly RunEffect[]): Transition {
  return { state: { ...state, confirming: null }, effects, accepted: true };
}

/** Nothing moves; the packer is told why. */
export function refuse(state: RunState, code: NoticeCode, values: Notice['values'] = {}): Transition {
  return { state: { ...state, notice: notice(code, values) }, effects: [], accepted: false };
}

/** Nothing happens and nothing is said. */
export function ignore(state: RunState): Transition {
  return { state, effects: [], accepted: false };
}

/** Nothing moves until the packer confirms. */
export function askFirst(
  state: RunState,
  confirming: NonNullable<RunState['confirming']>,
  code: NoticeCode,
  values: Notice['values'] = {},
): Transition {
  return { state: { ...state, confirming, notice: notice(code, values) }, effects: [], accepted: true };
}
