import type { Language } from '#shared/words/language.ts';

interface OfferWords {
  readonly order: (id: string) => string;
  readonly foreignPiece: string;
  readonly folded: (piece: string) => string;
  readonly bin: (container: string) => string;
  readonly label: string;
  readonly parcel: (order: string) => string;
  readonly sack: (carrier: string) => string;
  readonly foreignLabel: string;
}

/** What the tray of simulated devices calls the codes that a hand could scan. */
export const offerWords: Readonly<Record<Language, OfferWords>> = {
  en: {
    order: (id) => `order ${id}`,
    foreignPiece: 'a piece of another order',
    folded: (piece) => `${piece}, folded`,
    bin: (container) => `bin: ${container}`,
    label: 'the label',
    parcel: (order) => `into the sack: the parcel of ${order}`,
    sack: (carrier) => `sack of ${carrier}`,
    foreignLabel: 'a label for another postcode',
  },
  es: {
    order: (id) => `pedido ${id}`,
    foreignPiece: 'una prenda de otro pedido',
    folded: (piece) => `${piece}, doblada`,
    bin: (container) => `cajón: ${container}`,
    label: 'la etiqueta',
    parcel: (order) => `al saco: el paquete de ${order}`,
    sack: (carrier) => `saco de ${carrier}`,
    foreignLabel: 'una etiqueta de otro código postal',
  },
};
