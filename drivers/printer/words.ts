import type { Language } from '#shared/words/language.ts';

/** Every word that the station itself puts on paper. */
export interface PaperWords {
  readonly close: string;
  readonly over: string;
  readonly ceiling: string;
  readonly scaleShows: string;
  readonly stillToCome: string;
  readonly canBeWrongBy: string;
  readonly choices: string;
  readonly tearOff: string;
  readonly packingSlip: string;
  readonly order: string;
  readonly shipTo: string;
  readonly pieces: string;
  readonly container: string;
  readonly service: string;
  readonly weight: string;
  readonly margin: string;
}

export const PAPER_WORDS: Readonly<Record<Language, PaperWords>> = {
  en: {
    close: 'WEIGHT TOO CLOSE TO CALL',
    over: 'OVER THE WEIGHT PAID FOR',
    ceiling: 'Paid up to',
    scaleShows: 'Scale shows',
    stillToCome: 'Still to come',
    canBeWrongBy: 'Can be wrong by',
    choices: 'What to do',
    tearOff: 'tear off here',
    packingSlip: 'Packing slip',
    order: 'Order',
    shipTo: 'Ship to',
    pieces: 'Pieces',
    container: 'Container',
    service: 'Service',
    weight: 'Weight',
    margin: 'Margin',
  },
  es: {
    close: 'PESO DEMASIADO JUSTO',
    over: 'PASA DEL PESO PAGADO',
    ceiling: 'Pagado hasta',
    scaleShows: 'La balanza marca',
    stillToCome: 'Falta por poner',
    canBeWrongBy: 'Puede errar en',
    choices: 'Qué hacer',
    tearOff: 'cortar por aquí',
    packingSlip: 'Albarán',
    order: 'Pedido',
    shipTo: 'Enviar a',
    pieces: 'Prendas',
    container: 'Embalaje',
    service: 'Servicio',
    weight: 'Peso',
    margin: 'Margen',
  },
};
