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
  readonly copy: string;
  readonly firstPrinted: string;
  readonly packingSlip: string;
  readonly order: string;
  readonly shipTo: string;
  readonly pieces: string;
  readonly container: string;
  readonly service: string;
  readonly weight: string;
  readonly margin: string;
  readonly handOver: string;
  readonly parcels: string;
  readonly totalWeight: string;
  readonly orderList: string;
  readonly nothingToOrder: string;
  readonly total: string;
  readonly left: (amount: string, days: string) => string;
  readonly sackCards: string;
  readonly badgeOf: (name: string) => string;
  readonly checkedByEye: string;
  readonly handedOverBy: string;
  readonly receivedBy: string;
  readonly referenceCheck: string;
  readonly knownMass: string;
  readonly difference: string;
  readonly allowed: string;
  readonly passed: string;
  readonly notPassed: string;
  readonly trained: string;
  readonly signature: string;
  readonly testPage: string;
  readonly everyLetter: string;
  readonly fullWidth: string;
  readonly commandCards: string;
  readonly binLabels: string;
  readonly pieceLabels: string;
  readonly setAsideShelf: string;
  readonly foldedAhead: string;
  readonly nothingLies: string;
  readonly place: (number: number | null) => string;
  readonly basket: (number: number) => string;
}

export const PAPER_WORDS: Readonly<Record<Language, PaperWords>> = {
  en: {
    close: 'TOO CLOSE TO CALL',
    over: 'OVER THE WEIGHT PAID FOR',
    ceiling: 'Paid up to',
    scaleShows: 'Scale shows',
    stillToCome: 'Still to come',
    canBeWrongBy: 'Can be wrong by',
    choices: 'What to do',
    tearOff: 'tear off here',
    copy: 'COPY',
    firstPrinted: 'First printed',
    packingSlip: 'Packing slip',
    order: 'Order',
    shipTo: 'Ship to',
    pieces: 'Pieces',
    container: 'Container',
    service: 'Service',
    weight: 'Weight',
    margin: 'Margin',
    handOver: 'Hand-over',
    parcels: 'Parcels',
    totalWeight: 'Total weight',
    orderList: 'To order',
    nothingToOrder: 'Nothing has to be ordered.',
    total: 'Total',
    left: (amount, days) => `${amount} left, ${days} days`,
    sackCards: 'Sack cards',
    badgeOf: (name) => `Badge of ${name}`,
    checkedByEye: 'label checked by eye',
    handedOverBy: 'Handed over by',
    receivedBy: 'Received by',
    referenceCheck: 'Scale check',
    knownMass: 'Known mass',
    difference: 'Difference',
    allowed: 'Allowed',
    passed: 'Within the allowed difference',
    notPassed: 'DO NOT WEIGH WITH THIS SCALE',
    trained: 'Trained at the packing bench',
    signature: 'Signature',
    testPage: 'Printer test',
    everyLetter: 'Every letter must be readable:',
    fullWidth: 'This line fills the paper from edge to edge:',
    commandCards: 'Command cards',
    binLabels: 'Bin labels',
    pieceLabels: 'Piece labels',
    setAsideShelf: 'Set-aside shelf',
    foldedAhead: 'Folded ahead',
    nothingLies: 'Nothing.',
    place: (number) => (number === null ? 'own shelves' : `place ${String(number)}`),
    basket: (number) => `basket ${String(number)}`,
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
    copy: 'COPIA',
    firstPrinted: 'Impreso antes',
    packingSlip: 'Albarán',
    order: 'Pedido',
    shipTo: 'Enviar a',
    pieces: 'Prendas',
    container: 'Embalaje',
    service: 'Servicio',
    weight: 'Peso',
    margin: 'Margen',
    handOver: 'Entrega',
    parcels: 'Paquetes',
    totalWeight: 'Peso total',
    orderList: 'Por pedir',
    nothingToOrder: 'No hay que pedir nada.',
    total: 'Total',
    left: (amount, days) => `quedan ${amount}, ${days} días`,
    sackCards: 'Tarjetas de los sacos',
    badgeOf: (name) => `Tarjeta de ${name}`,
    checkedByEye: 'etiqueta revisada a ojo',
    handedOverBy: 'Entregado por',
    receivedBy: 'Recibido por',
    referenceCheck: 'Control de la balanza',
    knownMass: 'Masa conocida',
    difference: 'Diferencia',
    allowed: 'Permitido',
    passed: 'Dentro de lo permitido',
    notPassed: 'NO PESAR CON ESTA BALANZA',
    trained: 'Formación en la mesa de embalaje',
    signature: 'Firma',
    testPage: 'Prueba de la impresora',
    everyLetter: 'Deben leerse todas las letras:',
    fullWidth: 'Esta línea llena el papel de lado a lado:',
    commandCards: 'Tarjetas de órdenes',
    binLabels: 'Etiquetas de cajones',
    pieceLabels: 'Etiquetas de prendas',
    setAsideShelf: 'Estante de apartados',
    foldedAhead: 'Doblados en serie',
    nothingLies: 'Nada.',
    place: (number) => (number === null ? 'en sus estantes' : `lugar ${String(number)}`),
    basket: (number) => `cesta ${String(number)}`,
  },
};
