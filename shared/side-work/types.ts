import type { Command } from '#shared/run/commands.ts';
import type { Notice, SetAsideReason } from '#shared/run/types.ts';
import type { Language, Localised } from '#shared/words/language.ts';

/** A container that several waiting orders go into, each in one parcel. */
export interface ContainerChoice {
  readonly container: string;
  readonly name: Localised;
  readonly orders: number;
  readonly pieces: number;
}

/** An order on the set-aside shelf. */
export interface AsideChoice {
  readonly order: string;
  readonly buyer: string;
  readonly pieces: number;
  /** a SetAsideReason, or what planning said */
  readonly reason: string | null;
  /** number of its place on the set-aside shelf; null where its pieces are on their own shelves */
  readonly place: number | null;
}

/** A piece of a batch that is folded ahead: the orders' pieces in the order of their shelves. */
export interface BatchPiece {
  readonly order: string;
  readonly basket: number;
  readonly sku: string;
  readonly title: string;
  readonly kind: string;
  readonly place: string | null;
  /** index of its fold among those of the batch */
  readonly fold: number;
}

export type WalkStep =
  | { readonly at: 'fetch' }
  | { readonly at: 'look-over' }
  | { readonly at: 'fold'; readonly step: number }
  | { readonly at: 'lay' };

export interface Walk {
  readonly at: 'walk';
  readonly container: string;
  readonly name: Localised;
  /** what is laid in its basket goes before `piece` */
  readonly pieces: readonly BatchPiece[];
  readonly piece: number;
  readonly step: WalkStep;
}

export type SideScreen =
  | { readonly at: 'off' }
  | { readonly at: 'aside'; readonly choices: readonly AsideChoice[] }
  | { readonly at: 'containers'; readonly choices: readonly ContainerChoice[] }
  | { readonly at: 'preparing'; readonly container: string; readonly name: Localised }
  | Walk
  | {
      readonly at: 'folded';
      readonly name: Localised;
      readonly baskets: readonly { readonly order: string; readonly basket: number }[];
    };

/** What is done at a bench beside packing: looking through the set-aside shelf, folding ahead. */
export interface SideState {
  readonly person: string | null;
  readonly language: Language | null;
  readonly screen: SideScreen;
  /** the marked choice, by which whoever has no finger free chooses */
  readonly marked: number | null;
  /** waits for `confirm`, and since when */
  readonly confirming: { readonly command: Command; readonly reason?: SetAsideReason; readonly since: number } | null;
  readonly repeats: number;
  readonly notice: Notice | null;
}

export const NO_SIDE_WORK: SideState = {
  person: null,
  language: null,
  screen: { at: 'off' },
  marked: null,
  confirming: null,
  repeats: 0,
  notice: null,
};

/** The ids of what can be chosen on the screen, in its order. */
export function choicesOf({ screen }: SideState): readonly string[] {
  if (screen.at === 'aside') return screen.choices.map(({ order }) => order);
  return screen.at === 'containers' ? screen.choices.map(({ container }) => container) : [];
}

/** The piece of the batch that is at hand. */
export function pieceHere({ screen }: SideState): BatchPiece | undefined {
  return screen.at === 'walk' ? screen.pieces[screen.piece] : undefined;
}
