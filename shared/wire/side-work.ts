import type { AsideChoice, BatchPiece, ContainerChoice } from '#shared/side-work/types.ts';
import type { Localised } from '#shared/words/language.ts';

/** Which piece of a batch is at hand, where it comes from and which basket it goes into. */
export interface BatchView extends Pick<BatchPiece, 'order' | 'basket' | 'sku' | 'title' | 'place'> {
  readonly index: number;
  readonly of: number;
}

/** What the middle of the screen is about when something other than packing is done. */
export type SideTask = { readonly at: 'side' } & (
  | { readonly screen: 'aside'; readonly choices: readonly AsideChoice[]; readonly marked: number | null }
  | { readonly screen: 'containers'; readonly choices: readonly ContainerChoice[]; readonly marked: number | null }
  | { readonly screen: 'preparing'; readonly name: Localised }
  | { readonly screen: 'fetch' | 'lay'; readonly piece: BatchView }
  | {
      readonly screen: 'folded';
      readonly name: Localised;
      readonly baskets: readonly { readonly order: string; readonly basket: number }[];
    }
);
