import type { Localised } from '#shared/words/language.ts';

/** Personal data that is kept: in which column, whose, what it is, what for, and until when. */
export interface KeptData {
  readonly table: string;
  readonly columns: readonly string[];
  readonly whose: 'buyer' | 'staff';
  readonly what: Localised;
  readonly until: Localised;
}

const UNTIL_PURGED: Localised = {
  en: 'until it is removed by age (privacy.buyersDays) or by request',
  es: 'hasta que se elimina por antigüedad (privacy.buyersDays) o a petición',
};
const WHILE_EMPLOYED: Localised = {
  en: 'as long as the record is needed; the id stays, the name is in staff.yaml alone',
  es: 'mientras haga falta el registro; queda el identificador, el nombre está solo en staff.yaml',
};
const buyer = (table: string, columns: readonly string[], en: string, es: string, until = UNTIL_PURGED): KeptData => ({
  ...{ table, columns, until },
  whose: 'buyer',
  what: { en, es },
});
const staff = (
  table: string,
  columns: readonly string[],
  en: string,
  es: string,
  until = WHILE_EMPLOYED,
): KeptData => ({
  ...{ table, columns, until },
  whose: 'staff',
  what: { en, es },
});

/**
 * Every column of the store that holds data about a person. A test lets a made-up buyer and packer go through the whole shop
 * and looks for them in every column: one that is not here fails it.
 */
export const KEPT: readonly KeptData[] = [
  buyer('shop_order', ['body'], 'name, address, note of an order', 'nombre, dirección, nota de un pedido'),
  buyer(
    'search_entry',
    ['ref', 'code', 'words'],
    'the same, to be found, and numbers of labels',
    'lo mismo, para buscarlo, y números de etiquetas',
  ),
  buyer(
    'input',
    ['body'],
    'the order as a bench took it, labels that were scanned',
    'el pedido como lo tomó una mesa, etiquetas leídas',
  ),
  buyer(
    'bench_state',
    ['body'],
    'the order at a bench, until it takes another',
    'el pedido en una mesa, hasta que toma otro',
  ),
  buyer('parcel', ['body', 'label'], 'postcode and number of the label', 'código postal y número de la etiqueta'),
  buyer(
    'label_request',
    ['facts', 'body', 'answer', 'tracking', 'label'],
    'what was sent for a label, and the label',
    'lo enviado para una etiqueta, y la etiqueta',
  ),
  buyer(
    'print_job',
    ['bytes', 'title'],
    'slips and labels as they were printed',
    'albaranes y etiquetas como se imprimieron',
  ),
  buyer('address_checked', ['address'], 'an address that was found right', 'una dirección dada por buena'),
  buyer('import_record', ['body'], 'orders of an import that is under way', 'pedidos de una importación en curso', {
    en: 'until the import is stored: minutes',
    es: 'hasta que se guarda la importación: minutos',
  }),
  buyer('purge_asked', ['identity'], 'what is being taken out', 'lo que se está eliminando', {
    en: 'until it is taken out: seconds',
    es: 'hasta que se elimina: segundos',
  }),
  buyer('photo', ['file'], 'photos, as files of the folder photos', 'fotos, como archivos de la carpeta photos', {
    en: 'the days that proof.keepDays in shop.yaml says',
    es: 'los días que dice proof.keepDays en shop.yaml',
  }),
  staff('run', ['packer'], 'who packed', 'quién empaquetó'),
  staff('photo', ['person'], 'who stood at the bench', 'quién estaba en la mesa'),
  staff('parcel', ['body'], 'who packed', 'quién empaquetó'),
  staff('label_request', ['facts'], 'who packed', 'quién empaquetó'),
  staff('input', ['body'], 'badges that were scanned', 'tarjetas leídas'),
  staff('bench_state', ['body'], 'who stands at a bench', 'quién está en una mesa'),
  staff(
    'pack',
    ['person'],
    'how each order went, for guidance and progress',
    'cómo fue cada pedido, para la guía y el progreso',
  ),
  staff('guidance_choice', ['person'], 'guidance that was set by hand', 'la guía puesta a mano'),
  staff('practice_mark', ['person', 'body'], 'marks of practice', 'notas de la práctica'),
  staff('practice_state', ['body'], 'who practises', 'quién practica'),
  staff('practice_input', ['body'], 'what was done in practice', 'lo hecho en la práctica'),
  staff('side_work_state', ['body'], 'who works beside packing', 'quién trabaja aparte'),
  staff('skill_signed', ['person', 'signed_by'], 'skills that were signed off', 'habilidades firmadas'),
  staff('speech_manner', ['listener'], 'how somebody is spoken to', 'cómo se habla a alguien'),
  staff('voice_enrolment', ['staff', 'body'], 'which phrases work for somebody', 'qué frases funcionan con alguien'),
  staff('stock_move', ['who'], 'who counted', 'quién contó'),
  staff('sack', ['closed_by'], 'who handed a sack over', 'quién entregó un saco'),
  staff(
    'change_record',
    ['who', 'about', 'details'],
    'who changed what; of the command line, the system’s user; of wrong tries, the network address',
    'quién cambió qué; de la línea de órdenes, el usuario del sistema; de intentos fallidos, la dirección de red',
  ),
  staff('access_pin', ['person', 'hash'], 'that somebody has a PIN, hashed', 'que alguien tiene un PIN, cifrado'),
  staff('access_session', ['person'], 'who signed in where', 'quién inició sesión dónde'),
  staff('access_try', ['subject'], 'wrong tries to sign in', 'intentos fallidos de entrar', {
    en: 'a day after the last wrong try',
    es: 'un día después del último intento fallido',
  }),
  staff(
    'shop_file',
    ['keys'],
    'ids of who works here, as keys of the shop’s files; what these say as digests alone',
    'identificadores de quienes trabajan aquí, como claves de los archivos; lo que dicen, solo como resúmenes cifrados',
    { en: 'until the files have them no more', es: 'hasta que los archivos ya no los tienen' },
  ),
];
