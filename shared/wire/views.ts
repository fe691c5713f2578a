import type { FoldDrawing, FoldedBlock } from '#shared/folding/types.ts';
import type { ContainerType, FitVerdict } from '#shared/fitting/types.ts';
import type { BatchView, SideTask } from './side-work.ts';
import type { PracticeTask } from './practice.ts';
import type { LiftCaution } from '#shared/care/lift-caution.ts';
import type { PauseDue } from '#shared/care/pause.ts';
import type { AtRisk } from '#shared/day-board/counts.ts';
import type { WhyNext } from '#shared/queue/choice.ts';
import type { PhotoDue } from '#shared/proof/types.ts';
import type { GuidanceLevel } from '#shared/guidance/level.ts';
import type { Command } from '#shared/run/commands.ts';
import type { DecideBecause, LabelStop, Lies, Notice, SetAsideReason, StepName } from '#shared/run/types.ts';
import type { Reading, Verdict } from '#shared/weighing/types.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import type { AddressDoubt } from '#shared/addresses/types.ts';
import type { BenchLabel, CustomsGap } from './label.ts';
import type { BenchSack } from './hand-over.ts';
import type { ShortSupply } from './supplies.ts';
import type { SpeechView } from './speech.ts';
import type { Language, Localised } from '#shared/words/language.ts';
import type { Day, Reason } from '#shared/rating/types.ts';

/** All that a bench screen shows, computed by the server from the run; the screen holds no state of the run itself. */
export interface BenchView {
  readonly bench: { readonly id: string; readonly name: string };
  readonly packer: { readonly name: string; readonly language: Language } | null;
  /** in which this bench is shown and spoken to */
  readonly language: Language;
  readonly units: { readonly mass: MassUnit; readonly massPlaces: number; readonly length: LengthUnit };
  /** the shop's own clock: IANA time zone */
  readonly timeZone: string;
  /** grows with every stored input of the run at this bench */
  readonly seq: number;
  readonly task: Task;
  /** possible now, the main one first */
  readonly commands: readonly Command[];
  readonly confirming: { readonly command: Command; readonly reason?: SetAsideReason } | null;
  /** one stitch for each thing to do; `at` is where the needle stands */
  readonly seam: { readonly stitches: readonly Stitch[]; readonly at: number };
  readonly order: OrderTag | null;
  readonly container: ContainerTag | null;
  readonly notice: Notice | null;
  readonly lastScan: { readonly text: string; readonly meaning: string } | null;
  readonly weigh: WeighScale | null;
  readonly slip: 'none' | 'queued' | 'printed' | 'failed' | 'unknown';
  /** grows each time the packer asks to hear the cue again */
  readonly repeats: number;
  /** this bench has asked for help, and nothing was done here since */
  readonly helpCalled?: boolean;
  /** names of the other benches that have */
  readonly helpWanted?: readonly string[];
  /** key codes (KeyboardEvent.code) of the foot switch that press the main command */
  readonly footSwitchKeys: readonly string[];
  /** key codes of pedals that have a command of their own */
  readonly pedals?: Readonly<Record<string, Command>>;
  /** how much is told of what is at hand; null where there is nothing to tell */
  readonly guidance: GuidanceLevel | null;
  /** counters of the day */
  readonly day: DayCounts;
  /** the next orders in their turn at this bench, shown when idle */
  readonly queue: readonly QueuedOrder[];
  /** the first of them, and why it is */
  readonly next?: NextOrder | null;
  /** the skill that is practised; null while orders are packed. Nothing shown in practice is kept with the orders */
  readonly practice: { readonly skill: Localised | null } | null;
  /** the piece at hand of a batch that is folded ahead */
  readonly batch?: BatchView;
  readonly simulated: boolean;
  /** orders without a mistake in a row of who is signed on, told between two orders */
  readonly streak?: number;
  /** a pause that is due, told between two orders */
  readonly pause?: PauseDue | null;
  /** supplies that run out, shown when idle */
  readonly short?: readonly ShortSupply[];
  /** the carrier's sack that this bench's scanner loads between orders */
  readonly sack?: BenchSack | null;
  /** parcels that are labelled and should have left, shown when idle */
  readonly overdue?: number;
  /** the label that was asked for from outside, of the parcel at hand, from when its weight is settled */
  readonly label?: BenchLabel;
  /** what the customs must be told of this order's pieces and nobody has said */
  readonly customs?: readonly CustomsGap[];
  /** what to ask the office about this order's address */
  readonly address?: readonly AddressDoubt[];
  /** the photo that the shop wants at this moment */
  readonly photo?: PhotoDue;
  /** how this bench speaks */
  readonly speech: SpeechView;
  /** the scale hangs on the screen itself, which passes its reports on */
  readonly scaleOnScreen?: true;
  /** the shop wants this screen not to go dark */
  readonly keepAwake?: true;
}

export interface Stitch {
  readonly step: StepName;
  /** piece title for stitches that are about a piece */
  readonly about?: string;
}

export interface QueuedOrder {
  readonly id: string;
  readonly pieces: number;
  readonly shipBy: string;
  /** when it is collected, ISO */
  readonly collection: string;
  /** that it is planned to go into; null while that is not known */
  readonly container: Localised | null;
  /** where its first piece lies */
  readonly shelf: string | null;
  /** its collection has gone */
  readonly late: boolean;
}

/** The orders of all benches: how many wait, will perhaps miss or have missed their collection, and were packed today. */
export interface DayCounts extends AtRisk {
  readonly waiting: number;
  readonly setAside: number;
  readonly done: number;
}

/** The order that "next" takes at this bench, and why. */
export interface NextOrder extends WhyNext {
  readonly order: string;
  /** ISO */
  readonly collection: string;
  /** who comes then */
  readonly carriers: readonly Localised[];
  /** until then; below zero when it has gone */
  readonly minutes: number;
  readonly container: Localised | null;
  readonly shelf: string | null;
  /** in which its pieces lie folded; null where they were not folded ahead */
  readonly basket: number | null;
}

export interface OrderTag {
  readonly id: string;
  readonly buyer: string;
  readonly shipBy: string;
  /** day by which it was promised to be there */
  readonly arriveBy: Day | null;
  readonly note: string | null;
  readonly pieces: readonly PieceLine[];
  readonly parcel: number;
  readonly parcels: number;
  /** where all its pieces lie, where that is not their own shelves */
  readonly lies?: Lies;
}

export interface PieceLine {
  readonly sku: string;
  readonly title: string;
  readonly place: string | null;
  readonly due: number;
  readonly gathered: number;
  /** state in the run, for the button / needle beside it */
  readonly mark: 'waiting' | 'current' | 'done';
}

/** Container and service of the parcel being packed, and why; once its weight is settled, what is paid for it. */
export interface ContainerTag {
  readonly id: string;
  readonly name: Localised;
  readonly type: ContainerType;
  readonly wrap: Localised;
  readonly service: string;
  readonly serviceName: Localised;
  readonly price: Money;
  readonly fit: FitVerdict;
  /** float mm to spare in the tightest direction */
  readonly spare: number;
  /** the pieces lie in so many piles side by side */
  readonly piles: number;
  /** a double bag: one pouch goes into the other */
  readonly doubled: { readonly inner: Localised; readonly outer: Localised } | null;
  readonly doubts: readonly PlanDoubt[];
  /** the next best plan with another container, if any, and what this one saves */
  readonly saves: { readonly over: Localised; readonly by: Money } | null;
  readonly reasons: readonly Reason[];
}

/** What is not sure about the plan of the parcel being packed, or could not be kept. */
export type PlanDoubt =
  /** of some piece nobody said it; `weighed`: its mass is known all the same */
  | { readonly about: 'assumed'; readonly what: readonly ('size' | 'cloth')[]; readonly weighed: boolean }
  /** too many pieces to try everything: by how much it can be dearer than the cheapest plan, and what that costs at least */
  | { readonly about: 'not-proven'; readonly dearer: Money; readonly least: Money }
  | { readonly about: 'promise'; readonly service: Localised | null; readonly arriveBy: Day | null };

/** The scale of thought of the weigh line: brackets with prices, the ceiling that was planned, what is still to come. */
export interface WeighScale {
  /** every bracket of the planned service: its ceiling and price; dearest last */
  readonly brackets: readonly { readonly ceiling: Mass; readonly price: Money }[];
  /** index in `brackets` that was planned; once the weight is settled, the one that is paid for */
  readonly planned: number;
  readonly toCome: Mass;
  /** k = 2 margin of error at the planned mass */
  readonly uncertainty: Mass;
  readonly expected: { readonly mean: Mass; readonly low: Mass; readonly high: Mass };
}

/** What the middle of the screen is about. */
export type Task =
  | PracticeTask
  | SideTask
  | { readonly at: 'idle' }
  | { readonly at: 'gather'; readonly missing: number }
  | {
      readonly at: 'look-over';
      readonly piece: string;
      readonly index: number;
      readonly of: number;
      readonly cautions: readonly string[];
    }
  | {
      readonly at: 'fold';
      readonly piece: string;
      readonly pieceIndex: number;
      readonly pieces: number;
      readonly recipe: Localised;
      readonly step: number;
      readonly steps: number;
      readonly words: Localised;
      readonly spoken: Localised;
      readonly why: Localised | null;
      readonly drawing: FoldDrawing;
      readonly block: FoldedBlock;
      /** one of every step, or only the key step of the fold */
      readonly told: 'step' | 'key';
      /** how this person usually folds the kind, where that is otherwise; told to those who are told nothing else */
      readonly usual: Localised | null;
    }
  | {
      readonly at: 'fill';
      readonly cautions: readonly string[];
      /** what was folded as usual without a word about it */
      readonly asUsual: readonly {
        readonly piece: string;
        readonly recipe: Localised;
        readonly block: Pick<FoldedBlock, 'width' | 'length' | 'thickness'>;
      }[];
    }
  | { readonly at: 'weigh' }
  | {
      readonly at: 'decide';
      readonly because: DecideBecause;
      readonly reading: Reading;
      readonly verdict: Verdict;
      readonly paid: Money;
      readonly nextPrice: Money | null;
      /** what could be left out or changed, lightest change first, and how much it takes off */
      readonly lighter: readonly { readonly what: Localised; readonly mass: Mass }[];
      readonly drift: Mass;
      readonly expected: { readonly low: Mass; readonly high: Mass };
    }
  | {
      readonly at: 'seal';
      readonly cautions: readonly string[];
      /** what the scale said, when it was clear of the ceiling; null when it was decided upon */
      readonly weighed: Mass | null;
      /** a parcel that is heavy to lift, beside what one person should lift here */
      readonly lift?: LiftCaution | null;
    }
  | {
      readonly at: 'label';
      readonly postcode: string;
      readonly stop?: LabelStop;
      /** the digits so far of a number that is being entered by hand */
      readonly entering?: string;
    }
  | { readonly at: 'done'; readonly order: string; readonly seconds: number };

/** Live scale, sent as it changes, never stored. */
export interface LiveScale {
  readonly reading: Reading | null;
  /** a load lies still on the pan that nobody saw empty before it: it is not weighed until the pan was empty */
  readonly needsEmptying: boolean;
  /** the load is the parcel that was weighed before the one at hand, and was not taken off since */
  readonly another?: boolean;
  /** what the empty pan shows, when that is a division or more: the scale should be zeroed before it weighs */
  readonly needsZeroing?: Mass | null;
  /** frames that were no weight since the link came up */
  readonly discarded: number;
}

export type DeviceName = 'scale' | 'scanner' | 'printer';
export const DEVICE_STATES = ['working', 'silent', 'lost', 'faulty', 'attention'] as const;
export type DeviceState = (typeof DEVICE_STATES)[number];

export interface DeviceHealth {
  readonly device: DeviceName;
  readonly state: DeviceState;
  readonly since: number;
  /** what is the matter, as a code that the screen has words for */
  readonly trouble:
    | 'none'
    | 'no-frames'
    | 'cannot-open'
    | 'not-installed'
    | 'link-lost'
    | 'garbage'
    | 'paper-near-end'
    | 'paper-out'
    | 'cover-open'
    | 'offline'
    | 'restarted'
    | 'contradiction'
    | 'overload'
    | 'underload'
    | 'fault';
}
