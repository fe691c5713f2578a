import { offerWords } from './offer-words.ts';
import { containerCode, orderCode } from '#shared/codes/our-codes.ts';
import type { SideState } from '#shared/side-work/types.ts';
import type { SimulatorOffers } from '#shared/wire/events.ts';
import type { Language } from '#shared/words/language.ts';

const PIECES_SHOWN = 4;

/** What a hand could scan beside packing: what a list can choose, and the pieces of the batch that is folded ahead. */
export function codesBeside({ screen }: SideState, language: Language): SimulatorOffers['codes'] {
  const words = offerWords[language];
  switch (screen.at) {
    case 'aside':
      return screen.choices.map(({ order }) => ({ label: words.order(order), text: orderCode(order) }));
    case 'containers':
      return screen.choices.map(({ container, name }) => ({
        label: words.bin(name[language]),
        text: containerCode(container),
      }));
    case 'walk': {
      const due = screen.pieces.slice(screen.piece);
      if (screen.step.at === 'fetch') {
        return due.slice(0, PIECES_SHOWN).map(({ title, sku }) => ({ label: title, text: sku }));
      }
      if (screen.step.at === 'look-over') return [];
      return due.slice(0, 1).map(({ title, sku }) => ({ label: words.folded(title), text: sku }));
    }
    case 'off':
    case 'preparing':
    case 'folded':
      return [];
  }
}
