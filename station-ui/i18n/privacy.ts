import type { Language } from '#shared/words/language.ts';
import type { BytesLeft } from '#shared/wire/privacy.ts';
import { plural } from './plural.ts';

/** What the office says about data of people. */
export interface PrivacyWords {
  readonly title: string;
  readonly how: string;
  readonly byAge: (days: number | null) => string;
  readonly columns: Readonly<Record<'whose' | 'what' | 'where' | 'until', string>>;
  readonly whose: Readonly<Record<'buyer' | 'staff', string>>;
  readonly one: string;
  readonly oneHow: string;
  readonly name: string;
  readonly look: string;
  readonly found: (orders: readonly string[]) => string;
  readonly handOut: string;
  readonly remove: string;
  readonly sure: (buyer: string) => string;
  readonly really: string;
  readonly keep: string;
  readonly removed: (orders: number) => string;
  readonly bytesLeft: Readonly<Record<BytesLeft, string>>;
}

const en: PrivacyWords = {
  title: 'Data about people',
  how: 'What is kept of whom, where, and how long. Backups keep what they hold until they are thinned out.',
  byAge: (days) =>
    days === null
      ? 'Buyers’ data are kept until they are removed by hand: shop.yaml names no privacy.buyersDays.'
      : `Buyers’ data are removed ${plural(days, 'day')} after an order was packed or cancelled.`,
  columns: { whose: 'Whose', what: 'What', where: 'Where', until: 'Until' },
  whose: { buyer: 'buyers', staff: 'who works here' },
  one: 'One buyer',
  oneHow: 'The name as it stands on the orders. What was packed, weighed and paid stays, without the name.',
  name: 'Name',
  look: 'Look up',
  found: (orders) => `${orders.length === 1 ? '1 order' : `${String(orders.length)} orders`}: ${orders.join(', ')}`,
  handOut: 'Save everything of this buyer',
  remove: 'Remove this buyer’s data',
  sure: (buyer) => `Name, address, labels, prints and photos of “${buyer}” are gone for good.`,
  really: 'Remove for good',
  keep: 'Keep',
  removed: (orders) => `Removed from ${orders === 1 ? '1 order' : `${String(orders)} orders`}.`,
  bytesLeft: {
    none: '',
    later: 'What is left of it in gaps of the store’s file goes once no bench has an order in hand.',
    refused: 'The store’s file could not be written anew: make room on the disk. It is tried again by itself.',
  },
};

const es: PrivacyWords = {
  title: 'Datos de personas',
  how: 'Qué se guarda de quién, dónde y cuánto tiempo. Las copias de seguridad guardan lo suyo hasta que se aclaran.',
  byAge: (days) =>
    days === null
      ? 'Los datos de compradores se guardan hasta que se eliminan a mano: shop.yaml no indica privacy.buyersDays.'
      : `Los datos de compradores se eliminan ${plural(days, 'día')} después de empaquetar o cancelar un pedido.`,
  columns: { whose: 'De quién', what: 'Qué', where: 'Dónde', until: 'Hasta cuándo' },
  whose: { buyer: 'compradores', staff: 'quien trabaja aquí' },
  one: 'Un comprador',
  oneHow: 'El nombre tal como está en los pedidos. Lo empaquetado, pesado y pagado queda, sin el nombre.',
  name: 'Nombre',
  look: 'Buscar',
  found: (orders) => `${orders.length === 1 ? '1 pedido' : `${String(orders.length)} pedidos`}: ${orders.join(', ')}`,
  handOut: 'Guardar todo lo de este comprador',
  remove: 'Eliminar los datos de este comprador',
  sure: (buyer) => `Nombre, dirección, etiquetas, impresiones y fotos de «${buyer}» desaparecen para siempre.`,
  really: 'Eliminar para siempre',
  keep: 'Conservar',
  removed: (orders) => `Eliminado de ${orders === 1 ? '1 pedido' : `${String(orders)} pedidos`}.`,
  bytesLeft: {
    none: '',
    later: 'Lo que quede en huecos del archivo de datos desaparece cuando ninguna mesa tenga un pedido en curso.',
    refused: 'El archivo de datos no se pudo reescribir: libera espacio en el disco. Se reintenta por sí solo.',
  },
};

export const privacyWords: Readonly<Record<Language, PrivacyWords>> = { en, es };
