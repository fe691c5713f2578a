import type { Command, GivenBy } from './commands.ts';
import type { GuidanceLevel } from '#shared/guidance/level.ts';
import type { Guidance } from '#shared/guidance/stops.ts';
import type { PlanErrorCode } from '#shared/planning/plan-error.ts';
import type { Order, OrderPlan, ParcelPlan } from '#shared/planning/types.ts';
import type { Day } from '#shared/rating/types.ts';
import type { Language, Localised } from '#shared/words/language.ts';
import type { Mass } from '#shared/units/mass.ts';
import type { BiasShare } from '#shared/weighing/bias.ts';
import type { Accuracy, Reading, Verdict } from '#shared/weighing/types.ts';
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
  /** `stop`: a label was scanned that must not leave with this parcel; nothing goes on until that is settled */
  /** `entering`: the label cannot be scanned, its number is given digit by digit */
  | { readonly at: 'label'; readonly stop?: LabelStop; readonly entering?: Entering }
  | { readonly at: 'done' };

export type StepName = Step['at'];

/**
 * What is wrong with the label that was scanned: it names another postcode, its number is on another parcel, or another
 * number was bought for this one.
 */
export type LabelStop =
  | { readonly why: 'postcode'; readonly found: string; readonly due: string }
  | { readonly why: 'used'; readonly number: string }
  | { readonly why: 'number'; readonly found: string; readonly due: string };

/** A number being given by hand: its digits as they came, one touch or one utterance after the other. */
export interface Entering {
  readonly groups: readonly string[];
  /** when it last changed */
  readonly since: number;
}

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
  /** how the label was checked: its number when scanned, or the packer's eyes */
  readonly label: { readonly number: string } | 'by-eye' | null;
  /** was weighed far from what its pieces should weigh, and not yet as it should */
  readonly doubted?: boolean;
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
  'label-other-number',
  'label-bad-check-digit',
  'label-by-eye-asked',
  'number-so-far',
  'number-too-short',
  'number-too-long',
  'number-does-not-check',
  'number-of-no-label',
  'postcode-has-letters',
  'weigh-again-asked',
  'lighter-asked',
  'released',
  'packer-changed',
  'cannot-be-planned',
  'confirm-asked',
  'cancelled',
  'print-failed',
  'print-unknown',
  'order-taken-elsewhere',
  'order-not-open',
  'no-order-waiting',
  'set-aside-done',
  'goes-without',
  'help-called',
  'mass-mismatch',
  'undone',
  'not-stored',
  'guidance-changed',
  'signed-off',
  'sack-open',
  'sack-in',
  'sack-already-in',
  'sack-wrong-carrier',
  'sack-left-before',
  'sack-stays',
  'sack-not-known',
  'skill-needed',
  'skill-lacking',
  'order-folded',
  'folded-otherwise',
  'order-was-aside',
  'order-being-folded',
  'released-by-office',
  'bench-silent',
  'run-taken-over',
  'run-given-over',
  'laid-in-basket',
  'left-batch',
  'batch-ended',
  'no-batch',
  'list-printed',
  'address-doubtful',
] as const;
export type NoticeCode = (typeof NOTICE_CODES)[number];

/** The cheapest plan with other containers, and how much more it is expected to cost, in minor units. */
export interface NextBest {
  readonly container: Localised;
  readonly dearerBy: number;
}

/** What is to be known of the order's plan as a whole; of an order that was begun before this was kept, nothing. */
export interface PlanRemarks {
  /** where the plan is not proven the cheapest: no plan can be expected to cost less, in minor units */
  readonly leastCost?: number;
  /** what the buyer was promised and the plan cannot keep */
  readonly broken?: { readonly service?: string; readonly arriveBy?: Day };
}

export interface Confirming {
  readonly command: Command;
  readonly reason?: SetAsideReason;
  readonly since: number;
}

export const MISTAKE_KINDS = [
  'wrong-piece',
  'wrong-container',
  'wrong-label',
  'wrong-contents',
  'did-not-close',
] as const;
/**
 * What went wrong in a run, though the station caught it. `wrong-contents`: weighed far from what these pieces should weigh
 * and not kept as it was; `did-not-close`: the container did not close although it was nearly sure to.
 */
export type MistakeKind = (typeof MISTAKE_KINDS)[number];

/** A mistake, and the kinds of garment that it was made with. */
export interface RunMistake {
  readonly mistake: MistakeKind;
  readonly garments: readonly string[];
}

/** Where the pieces of an order lie instead of on their own shelves. */
export type Lies =
  /** folded ahead; `folded`: as the plan wants them, so that looking over and folding are done */
  | { readonly at: 'basket'; readonly number: number; readonly folded: boolean }
  /** a place of the set-aside shelf */
  | { readonly at: 'aside'; readonly number: number };

/** Everything about the run at one bench that must survive a restart. */
export interface RunState {
  readonly run: string | null;
  readonly order: Order | null;
  readonly parcels: readonly ParcelPlan[];
  /** what `too-tight` would bring next, told on the container's tag: the next best plan with another container */
  readonly nextBest: NextBest | null;
  readonly remarks?: PlanRemarks;
  /** which parcel of the plan is being packed */
  readonly parcel: number;
  readonly step: Step;
  /** sku -> how many were scanned */
  readonly gathered: Readonly<Record<string, number>>;
  readonly progress: readonly ParcelProgress[];
  /** containers found too tight for these pieces, by id */
  readonly tooTight: readonly string[];
  /** a command that waits for `confirm`, and since when */
  readonly confirming: Confirming | null;
  /** staff id of who stands here, from the badge */
  readonly packer: string | null;
  /** chosen on the screen; without it the packer's, then the shop's */
  readonly language: Language | null;
  /** grows each time the packer asks to hear the cue again */
  readonly repeats: number;
  readonly notice: Notice | null;
  readonly lastScan: { readonly text: string; readonly meaning: ScanMeaning['means'] } | null;
  /** state of this parcel's slip */
  readonly slip: 'none' | 'queued' | 'printed' | 'failed' | 'unknown';
  readonly startedAt: number | null;
  /** when the last order that was done here was done; of one done before this was kept, nothing */
  readonly endedAt?: number;
  /** how much is told of each kind of the order; a kind that is not named is told fully */
  readonly guidance: Guidance;
  readonly mistakes: readonly RunMistake[];
  /** a run on an invented order: its weight is invented too, and nothing of it is kept with the orders */
  readonly practice: boolean;
  /** null, or absent in runs of older versions: each piece lies on its own shelf */
  readonly lies?: Lies | null;
}

/** What can happen to a run. Every accepted one is stored before it is acknowledged. */
export type RunInput =
  | { readonly type: 'command'; readonly command: Command; readonly by: GivenBy; readonly reason?: SetAsideReason }
  | { readonly type: 'scan'; readonly meaning: ScanMeaning; readonly by: GivenBy }
  /** digits of a number that is being entered */
  | { readonly type: 'digits'; readonly digits: string; readonly by: GivenBy }
  | { readonly type: 'language'; readonly language: Language; readonly by: GivenBy }
  /** a settled reading of a load that was put on an empty pan; live ones never reach the run */
  | { readonly type: 'reading'; readonly reading: Reading }
  /** the server found and claimed an order for this bench, with its plan; `sku` is the piece whose scan asked for it */
  | {
      readonly type: 'order-taken';
      readonly run: string;
      readonly order: Order;
      readonly plan: OrderPlan;
      readonly sku?: string;
      readonly guidance?: Guidance;
      /** skills that it asks for and whoever packs it lacks, in that person's language */
      readonly lacking?: readonly string[];
      readonly lies?: Lies;
      /** its address should be asked about */
      readonly addressDoubtful?: true;
    }
  /** an order was chosen from a list */
  | { readonly type: 'take-up'; readonly order: string; readonly by: GivenBy }
  /** where the pieces of an order that was just set aside belong */
  | { readonly type: 'aside-placed'; readonly order: string; readonly place: number }
  /** the office takes an order away from this bench, for any bench to pack */
  /** `by`: the supervisor or owner who did it, by staff id */
  | { readonly type: 'released-by-office'; readonly order: string; readonly by?: string }
  /** another bench's order goes on here, in its exact step: that bench was not heard of any more */
  | {
      readonly type: 'taken-over';
      readonly from: string;
      readonly run: Omit<RunState, 'parcels'>;
      readonly plan: Pick<OrderPlan, 'parcels'>;
    }
  /** the other side of it: this bench's order goes on at another one */
  | { readonly type: 'given-over'; readonly order: string; readonly to: string }
  /** how much the person who has signed on is told of each kind of the order */
  | { readonly type: 'guidance'; readonly guidance: Guidance }
  | {
      readonly type: 'order-refused';
      readonly code: NoticeCode;
      readonly order: string;
      /** why it cannot be planned */
      readonly why?: PlanErrorCode;
      readonly values?: Notice['values'];
    }
  | { readonly type: 'replanned'; readonly plan: OrderPlan }
  | { readonly type: 'no-other-plan' }
  /** the order as it goes on without a piece, which follows in another one */
  | {
      readonly type: 'shortened';
      readonly order: Order;
      readonly plan: OrderPlan;
      readonly sku: string;
      readonly follows: string;
    }
  /** `why`: what is left of it cannot be planned, so it was set aside */
  | { readonly type: 'not-shortened'; readonly order: string; readonly why?: PlanErrorCode }
  | { readonly type: 'print-result'; readonly outcome: 'printed' | 'failed' | 'unknown' };

/** What the outside must do. Returned, never run inside. Each carries what it needs and nothing to look up. */
export type RunEffect =
  /** the named order, the order of the named piece, or with neither the next one */
  | { readonly type: 'take-order'; readonly order?: string; readonly sku?: string }
  /** `by`: who took it from the bench in the office; else its packer gives it back */
  | { readonly type: 'release-order'; readonly order: string; readonly by?: string }
  /** plan the pieces of the parcel at hand again without these containers */
  | {
      readonly type: 'replan';
      readonly order: Order;
      readonly pieces: readonly string[];
      readonly without: readonly string[];
    }
  /** divide the order in the store: a piece of it follows in another one */
  | { readonly type: 'go-without'; readonly order: string; readonly sku: string }
  | { readonly type: 'print-slip'; readonly parcel: number; readonly again: boolean }
  | { readonly type: 'zero-scale' }
  | { readonly type: 'begin-practice' }
  | { readonly type: 'begin-side-work'; readonly what: 'fold-ahead' | 'aside-list' }
  /** pieces that were folded ahead have to be folded otherwise */
  | { readonly type: 'folded-otherwise'; readonly order: string }
  /** in practice: the invented parcel is laid on a scale */
  | { readonly type: 'weigh-invented' }
  | { readonly type: 'set-aside'; readonly order: string; readonly reason: SetAsideReason }
  | { readonly type: 'parcel-done'; readonly order: string; readonly parcel: number }
  | { readonly type: 'order-done'; readonly order: string }
  /** somebody signed on in the middle of an order: look up what to tell of its kinds */
  | { readonly type: 'read-guidance'; readonly packer: string; readonly garments: readonly string[] }
  /** set by hand */
  | {
      readonly type: 'keep-guidance';
      readonly packer: string;
      readonly levels: Readonly<Record<string, GuidanceLevel>>;
    }
  | { readonly type: 'call-help' };

export interface Transition {
  readonly state: RunState;
  readonly effects: readonly RunEffect[];
  /** false: nothing moved; at most there is a notice to show */
  readonly accepted: boolean;
}

/** What a transition needs to know of the world, fixed for the call. */
export interface RunFacts {
  readonly now: number;
  /** the scanned label's number is already on another parcel of this shop */
  readonly labelUsedBefore: boolean;
  /** the number that was bought for the parcel at hand: its label must have it */
  readonly labelDue?: string;
  /** what the entered number means that this input confirms (`numberToLookUp`), as if it had been scanned */
  readonly entered?: ScanMeaning;
  /** what this shop lets pass without `confirm` where it is pressed or scanned, not said */
  readonly unasked?: readonly Command[];
  readonly weigh: WeighFacts;
}

/** What this bench's weighing can be wrong by. */
export interface WeighFacts {
  readonly division: Mass;
  readonly accuracy: Accuracy;
  /** half-width of what the zero may have moved by: the config's figure, or what an empty pan shows if that is more */
  readonly drift: Mass;
  /** from the last trial with a known mass */
  readonly reference?: Mass;
  /** from the carrier's corrections */
  readonly learned?: BiasShare | null;
}
