import type { Command, GivenBy } from './commands.ts';
import type { Order, OrderPlan, ParcelPlan } from '#shared/planning/types.ts';
import type { Reading, Verdict } from '#shared/weighing/types.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';

/** What the packer is asked to do now. */
export type Step =
  | { readonly at: 'idle' }
  | { readonly at: 'gather' }
  | { readonly at: 'look-over'; readonly piece: number }
  | { readonly at: 'fold'; readonly piece: number; readonly step: number }
  | { readonly at: 'fill' }
  | { readonly at: 'weigh' }
  | { readonly at: 'decide'; readonly because: DecideBecause }
  | { readonly at: 'seal' }
  | { readonly at: 'label' }
  | { readonly at: 'done' };

export type StepName = Step['at'];

/** Why a weight needs a decision; `mismatch`: far from what these pieces should weigh. */
export type DecideBecause = 'close' | 'over' | 'mismatch';

export const SET_ASIDE_REASONS = ['missing', 'damaged', 'forbidden', 'no-fit', 'other'] as const;
export type SetAsideReason = (typeof SET_ASIDE_REASONS)[number];

/** What was weighed and decided for one parcel. */
export interface Weighing {
  readonly reading: Reading;
  readonly verdict: Verdict;
  readonly because: DecideBecause | null;
  readonly decided: 'pay-next-bracket' | 'as-is' | null;
}

/** What became of one parcel so far. */
export interface ParcelProgress {
  readonly weighing: Weighing | null;
  readonly sealed: boolean;
  /** the number on the label that was scanned */
  readonly label: string | null;
}

/** Something the screen says once about the last input; a code with values, put into words by the screen. */
export interface Notice {
  readonly tone: 'well' | 'attention' | 'stop';
  readonly code: NoticeCode;
  readonly values: Readonly<Record<string, string>>;
}

export const NOTICE_CODES = [
  'piece-found',
  'piece-already-scanned',
  'piece-not-in-order',
  'code-not-known',
  'code-half-read',
  'not-now',
  'container-right',
  'container-wrong',
  'next-plan',
  'no-other-plan',
  'scale-not-still',
  'scale-empty',
  'scale-fault',
  'scale-not-emptied',
  'zero-asked',
  'label-right',
  'label-wrong-postcode',
  'label-used-before',
  'label-bad-check-digit',
  'confirm-asked',
  'cancelled',
  'printed',
  'print-failed',
  'print-unknown',
  'order-taken-elsewhere',
  'order-not-open',
  'no-order-waiting',
  'set-aside-done',
  'help-called',
  'mass-mismatch',
  'undone',
] as const;
export type NoticeCode = (typeof NOTICE_CODES)[number];

/** Everything about the run at one bench that must survive a restart. */
export interface RunState {
  readonly run: string | null;
  readonly order: Order | null;
  readonly plan: OrderPlan | null;
  /** which parcel of the plan is being packed */
  readonly parcel: number;
  readonly step: Step;
  /** sku -> how many were scanned */
  readonly gathered: Readonly<Record<string, number>>;
  readonly progress: readonly ParcelProgress[];
  /** containers found too tight for these pieces, by id */
  readonly tooTight: readonly string[];
  /** a command that waits for `confirm` */
  readonly confirming: { readonly command: Command; readonly reason?: SetAsideReason } | null;
  /** the pan was seen empty since the last capture */
  readonly panSeenEmpty: boolean;
  readonly notice: Notice | null;
  readonly lastScan: { readonly text: string; readonly meaning: ScanMeaning['means'] } | null;
  /** state of this parcel's slip */
  readonly slip: 'none' | 'queued' | 'printed' | 'failed' | 'unknown';
  readonly startedAt: number | null;
}

/** What can happen to a run. Every accepted one is stored before it is acknowledged. */
export type RunInput =
  | { readonly type: 'command'; readonly command: Command; readonly by: GivenBy; readonly reason?: SetAsideReason }
  | { readonly type: 'scan'; readonly meaning: ScanMeaning; readonly by: GivenBy }
  /** a settled reading; live ones never reach the run */
  | { readonly type: 'reading'; readonly reading: Reading }
  | { readonly type: 'pan-empty' }
  /** the server found and claimed an order for this bench, with its plan */
  | { readonly type: 'order-taken'; readonly run: string; readonly order: Order; readonly plan: OrderPlan }
  | { readonly type: 'order-refused'; readonly code: NoticeCode; readonly order: string }
  | { readonly type: 'replanned'; readonly plan: OrderPlan }
  | { readonly type: 'no-other-plan' }
  | { readonly type: 'print-result'; readonly outcome: 'printed' | 'failed' | 'unknown' };

/** What the outside must do. Returned, never run inside. Each carries what it needs and nothing to look up. */
export type RunEffect =
  | { readonly type: 'take-order'; readonly order: string | null }
  | { readonly type: 'replan'; readonly order: Order; readonly without: readonly string[] }
  | { readonly type: 'print-slip'; readonly parcel: number; readonly again: boolean }
  | { readonly type: 'zero-scale' }
  | { readonly type: 'set-aside'; readonly order: string; readonly reason: SetAsideReason }
  | { readonly type: 'parcel-done'; readonly order: string; readonly parcel: number; readonly label: string }
  | { readonly type: 'order-done'; readonly order: string }
  | { readonly type: 'call-help' };

export interface Transition {
  readonly state: RunState;
  readonly effects: readonly RunEffect[];
  /** false: the input changed nothing but the notice */
  readonly accepted: boolean;
}

/** What a transition may ask about the world without leaving the core. All values are fixed for the call. */
export interface RunFacts {
  readonly now: number;
  /** label numbers already used by any parcel of the shop */
  readonly labelUsedBefore: (label: string) => boolean;
  readonly verdictOf: (plan: ParcelPlan, reading: Reading) => Verdict;
}
