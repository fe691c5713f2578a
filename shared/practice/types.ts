import type { ContainerType, FitVerdict } from '#shared/fitting/types.ts';
import type { Problem } from '#shared/people/rules.ts';
import type { RunState } from '#shared/run/types.ts';
import type { Mass } from '#shared/units/mass.ts';
import type { Verdict } from '#shared/weighing/types.ts';
import type { Language, Localised } from '#shared/words/language.ts';

export const EXERCISES = ['guided', 'choose', 'spot'] as const;
/** A whole run on an invented order, choosing containers, finding what is wrong. */
export type Exercise = (typeof EXERCISES)[number];

/** One thing that was practised, and whether it was right. */
export interface Mark {
  readonly skill: string;
  readonly exercise: Exercise;
  /** kinds of garment, or the problem that was to be found */
  readonly about: readonly string[];
  /** what was answered: a container, a problem, the mistakes of a run */
  readonly answer: string;
  readonly right: boolean;
}

/** One container to choose from, and why it is the one or is not. */
export interface ContainerOption {
  readonly container: string;
  readonly name: Localised;
  readonly type: ContainerType;
  readonly fit: FitVerdict;
  readonly right: boolean;
  readonly why: Localised;
}

/** Which container is cheapest for this piece? */
export interface ChooseRound {
  readonly exercise: 'choose';
  readonly kind: string;
  readonly kindName: Localised;
  readonly size: string | null;
  /** folded, float mm */
  readonly block: { readonly width: number; readonly length: number; readonly thickness: number };
  readonly grams: number;
  readonly options: readonly ContainerOption[];
}

export const POCKETS = ['empty', 'tissue', 'button', 'vape', 'power-bank', 'hearing-aid-cell'] as const;
export type Pocket = (typeof POCKETS)[number];

/** What lies on the bench in a round of "what is wrong here". */
export interface Scene {
  readonly order: { readonly id: string; readonly postcode: string; readonly pieces: readonly ScenePiece[] };
  readonly inHand: ScenePiece;
  readonly pocket: Pocket;
  readonly label: { readonly postcode: string; readonly number: string };
  readonly scale: {
    readonly emptyPan: Mass;
    readonly reading: Mass;
    readonly ceiling: Mass;
    readonly verdict: Verdict;
  };
}

export interface ScenePiece {
  readonly sku: string;
  readonly name: Localised;
}

export interface SpotRound {
  readonly exercise: 'spot';
  readonly scene: Scene;
  /** null: nothing is wrong */
  readonly problem: Problem | null;
}

export type Round = ChooseRound | SpotRound;

export type PracticeScreen =
  | { readonly at: 'off' }
  | { readonly at: 'menu' }
  | {
      readonly at: 'skill';
      readonly skill: string;
      readonly signing: { readonly by: string; readonly since: number } | null;
    }
  | { readonly at: 'preparing'; readonly skill: string; readonly exercise: Exercise }
  | { readonly at: 'round'; readonly skill: string; readonly round: Round; readonly answer: string | null }
  | { readonly at: 'guided'; readonly skill: string; readonly run: RunState }
  | { readonly at: 'progress' };

/** What a practice notice says; put into words by the screen. */
export interface PracticeNotice {
  readonly tone: 'well' | 'attention' | 'stop';
  readonly code:
    | 'signed'
    | 'not-ready'
    | 'nobody-here'
    | 'not-a-supervisor'
    | 'own-skill'
    | 'not-here'
    | 'cannot-prepare'
    | 'printed-record';
  readonly values: Readonly<Record<string, string>>;
}

/** Practice at one bench. Nothing of it touches an order, a piece, a parcel or a print number. */
export interface PracticeState {
  readonly person: string | null;
  readonly language: Language | null;
  readonly screen: PracticeScreen;
  /** the marked option, by which whoever has no finger free chooses */
  readonly marked: number | null;
  /** rounds asked and answered rightly since the exercise was begun */
  readonly asked: number;
  readonly right: number;
  readonly repeats: number;
  readonly notice: PracticeNotice | null;
}

export const NO_PRACTICE: PracticeState = {
  person: null,
  language: null,
  screen: { at: 'off' },
  marked: null,
  asked: 0,
  right: 0,
  repeats: 0,
  notice: null,
};
