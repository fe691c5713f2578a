import type { Lies, Notice } from './types.ts';

/** Where the pieces lie, as values of a notice; nothing where each lies on its own shelf. */
export function whereItLies(lies: Lies | null | undefined): Notice['values'] {
  if (lies === null || lies === undefined) return {};
  return lies.at === 'basket' ? { basket: String(lies.number) } : { place: String(lies.number) };
}

/** Whether the pieces were looked over and folded before the order's turn, as the plan wants them. */
export function isFoldedAhead({ lies }: { readonly lies?: Lies | null }): boolean {
  return lies?.at === 'basket' && lies.folded;
}
