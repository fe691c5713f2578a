import { MOST_COUNTED, type SearchKind } from '#shared/wire/search.ts';
import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

/** What searching, the list of orders and an order's own page say. */
export interface SearchWords {
  readonly label: string;
  readonly hint: string;
  readonly results: string;
  readonly nothing: (text: string) => string;
  readonly kinds: Readonly<Record<SearchKind, string>>;
  readonly more: string;
  readonly orderCount: (count: number) => string;
  readonly unsold: string;
  readonly page: (from: number, to: number, of: string) => string;
  readonly before: string;
  readonly next: string;
  readonly newestOnly: string;
  readonly order: (id: string) => string;
  readonly back: string;
  readonly where: string;
  readonly waiting: (leaves: string) => string;
  readonly atBench: (bench: string, packer: string, since: string) => string;
  readonly released: (by: string, when: string, fromOffice: boolean) => string;
  readonly aside: (place: string, reason: string) => string;
  readonly packed: string;
  readonly cancelled: string;
  readonly parcels: string;
  readonly parcelOf: (number: number, of: number) => string;
  readonly waits: string;
  readonly inSack: (carrier: string, collection: string) => string;
  readonly left: (carrier: string, when: string) => string;
  readonly stays: (reason: string) => string;
  readonly tracking: string;
  readonly byEye: string;
  readonly container: string;
  readonly service: string;
  readonly reading: string;
  readonly packedBy: (who: string, bench: string, when: string) => string;
  readonly somebody: string;
  readonly pieces: string;
  readonly sku: string;
  readonly piece: string;
  readonly shelf: string;
  readonly unknownPiece: string;
  readonly noShelf: string;
  readonly buyer: string;
  readonly address: string;
  readonly came: string;
  readonly leaves: string;
  readonly promised: string;
  readonly note: string;
  readonly verdicts: Readonly<Record<string, string>>;
}

const en: SearchWords = {
  label: 'Search everything',
  hint: 'Search orders, buyers, pieces, numbers, staff',
  results: 'What was found',
  nothing: (text) => `Nothing holds “${text}”.`,
  kinds: { order: 'Orders', parcel: 'Tracking numbers', piece: 'Pieces', buyer: 'Buyers', staff: 'Who works here' },
  more: 'and others: write more of it',
  orderCount: (count) => (count > MOST_COUNTED ? `more than ${String(MOST_COUNTED)} orders` : plural(count, 'order')),
  unsold: 'in no order',
  page: (from, to, of) => `${String(from)} to ${String(to)} of ${of}`,
  before: 'Before',
  next: 'Next',
  newestOnly: 'the newest ones: write more to narrow it',
  order: (id) => `Order ${id}`,
  back: 'All orders',
  where: 'Where it is',
  waiting: (leaves) => `Waits to be packed, leaves by ${leaves}`,
  released: (by, when, fromOffice) => `${fromOffice ? 'Taken from its bench' : 'Given back'} by ${by} on ${when}.`,
  atBench: (bench, packer, since) => `At ${bench}${packer === '' ? '' : `, with ${packer}`}, since ${since}`,
  aside: (place, reason) => `Set aside${place === '' ? '' : `, place ${place}`}${reason === '' ? '' : `: ${reason}`}`,
  packed: 'Packed',
  cancelled: 'Cancelled',
  parcels: 'Parcels',
  parcelOf: (number, of) => `Parcel ${String(number)} of ${String(of)}`,
  waits: 'Closed and labelled, in no sack yet',
  inSack: (carrier, collection) => `In the sack of ${carrier} for ${collection}`,
  left: (carrier, when) => `Left with ${carrier}, ${when}`,
  stays: (reason) => `Stays here: ${reason}`,
  tracking: 'Tracking number',
  byEye: 'label checked by eye, number not read',
  container: 'Container',
  service: 'Service',
  reading: 'Weighed',
  packedBy: (who, bench, when) => `Packed by ${who} at ${bench}, ${when}`,
  somebody: 'somebody without a badge',
  pieces: 'Pieces',
  sku: 'SKU',
  piece: 'piece',
  shelf: 'shelf',
  unknownPiece: 'never entered',
  noShelf: 'no shelf noted',
  buyer: 'Buyer',
  address: 'Address',
  came: 'Came in',
  leaves: 'Leaves by',
  promised: 'Promised for',
  note: 'Note',
  verdicts: { clear: 'clear of the next price', close: 'too close to the next price', over: 'over its bracket' },
};

const es: SearchWords = {
  label: 'Buscar en todo',
  hint: 'Buscar pedidos, prendas, nombres, números',
  results: 'Lo encontrado',
  nothing: (text) => `Nada contiene «${text}».`,
  kinds: {
    order: 'Pedidos',
    parcel: 'Números de seguimiento',
    piece: 'Prendas',
    buyer: 'Compradores',
    staff: 'Quien trabaja aquí',
  },
  more: 'y otros: escriba algo más',
  orderCount: (count) => (count > MOST_COUNTED ? `más de ${String(MOST_COUNTED)} pedidos` : plural(count, 'pedido')),
  unsold: 'en ningún pedido',
  page: (from, to, of) => `${String(from)} a ${String(to)} de ${of}`,
  before: 'Anteriores',
  next: 'Siguientes',
  newestOnly: 'los más nuevos: escriba más para acotar',
  order: (id) => `Pedido ${id}`,
  back: 'Todos los pedidos',
  where: 'Dónde está',
  waiting: (leaves) => `Espera a ser preparado, sale antes de ${leaves}`,
  released: (by, when, fromOffice) => `${fromOffice ? 'Lo quitó de su mesa' : 'Lo devolvió'} ${by} el ${when}.`,
  atBench: (bench, packer, since) => `En ${bench}${packer === '' ? '' : `, con ${packer}`}, desde ${since}`,
  aside: (place, reason) => `Apartado${place === '' ? '' : `, lugar ${place}`}${reason === '' ? '' : `: ${reason}`}`,
  packed: 'Preparado',
  cancelled: 'Cancelado',
  parcels: 'Paquetes',
  parcelOf: (number, of) => `Paquete ${String(number)} de ${String(of)}`,
  waits: 'Cerrado y etiquetado, aún en ningún saco',
  inSack: (carrier, collection) => `En el saco de ${carrier} para ${collection}`,
  left: (carrier, when) => `Salió con ${carrier}, ${when}`,
  stays: (reason) => `Se queda aquí: ${reason}`,
  tracking: 'Número de seguimiento',
  byEye: 'etiqueta comprobada a ojo, número sin leer',
  container: 'Embalaje',
  service: 'Servicio',
  reading: 'Pesado',
  packedBy: (who, bench, when) => `Preparado por ${who} en ${bench}, ${when}`,
  somebody: 'alguien sin tarjeta',
  pieces: 'Prendas',
  sku: 'SKU',
  piece: 'prenda',
  shelf: 'estante',
  unknownPiece: 'nunca dada de alta',
  noShelf: 'sin estante anotado',
  buyer: 'Comprador',
  address: 'Dirección',
  came: 'Entró',
  leaves: 'Sale antes de',
  promised: 'Prometido para',
  note: 'Nota',
  verdicts: {
    clear: 'lejos del precio siguiente',
    close: 'demasiado cerca del precio siguiente',
    over: 'pasado de tramo',
  },
};

export const searchWords: Readonly<Record<Language, SearchWords>> = { en, es };
