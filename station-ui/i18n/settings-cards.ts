import type { Language } from '#shared/words/language.ts';

interface CardWords {
  readonly add: string;
  readonly how: string;
  readonly file: string;
  readonly fileHint: string;
  readonly save: string;
  readonly added: (file: string) => string;
  readonly take: string;
  readonly really: (file: string) => string;
  readonly kept: string;
  readonly removed: string;
}

/** What the settings say of whole rate cards. */
export const cardWords: Readonly<Record<Language, CardWords>> = {
  en: {
    add: 'Add a rate card',
    how: 'A carrier’s prices, or others that begin on a later day. It counts from its first day on. A long price table is brought in faster on the page Rates.',
    file: 'called',
    fileHint: 'the name of its file: lower-case letters, digits and hyphens',
    save: 'Add it',
    added: (file) => `Added as ${file}.`,
    take: 'Take this rate card away',
    really: (file) => `Take ${file} away? Its prices are then asked no longer.`,
    kept: 'What it said is kept: it can be restored below “Add a rate card”.',
    removed: 'Taken away, and can be restored',
  },
  es: {
    add: 'Añadir una tarifa',
    how: 'Los precios de un transportista, u otros que empiezan más adelante. Vale desde su primer día. Una tabla larga de precios se trae antes en la página Tarifas.',
    file: 'se llama',
    fileHint: 'el nombre de su archivo: minúsculas, cifras y guiones',
    save: 'Añadirla',
    added: (file) => `Añadida como ${file}.`,
    take: 'Quitar esta tarifa',
    really: (file) => `¿Quitar ${file}? Sus precios dejan de valer.`,
    kept: 'Se guarda lo que decía: se recupera debajo de «Añadir una tarifa».',
    removed: 'Quitadas, se pueden recuperar',
  },
};
