import type { AddressDoubt } from '#shared/addresses/types.ts';
import type { Language } from '#shared/words/language.ts';

export interface AddressWords {
  /** on the bench, before what is doubtful */
  readonly bench: string;
  readonly title: (count: number) => string;
  readonly how: string;
  readonly columns: {
    readonly order: string;
    readonly buyer: string;
    readonly address: string;
    readonly doubt: string;
    readonly line: string;
  };
  readonly right: string;
  readonly rightFor: (order: string) => string;
  readonly foundRight: (order: string) => string;
  /** over the list of an import */
  readonly imported: (count: number) => string;
  readonly storedAllTheSame: string;
}

const en: AddressWords = {
  bench: 'Address',
  title: (count) => (count === 1 ? 'One address to ask about' : `${String(count)} addresses to ask about`),
  how: 'They are packed all the same, and the bench is told. Ask the buyer, and import the order with its right address; or say that it is right.',
  columns: { order: 'Order', buyer: 'Buyer', address: 'Address', doubt: 'What to ask', line: 'Line' },
  right: 'It is right',
  rightFor: (order) => `The address of order ${order} is right`,
  foundRight: (order) => `Order ${order}: the address was found right`,
  imported: (count) => (count === 1 ? 'One address looks incomplete' : `${String(count)} addresses look incomplete`),
  storedAllTheSame: 'These orders are stored all the same; the page Orders and the bench tell it again.',
};

const es: AddressWords = {
  bench: 'Dirección',
  title: (count) => (count === 1 ? 'Una dirección por preguntar' : `${String(count)} direcciones por preguntar`),
  how: 'Se embalan igualmente, y la mesa lo avisa. Pregunte al comprador e importe el pedido con la dirección correcta, o diga que es correcta.',
  columns: { order: 'Pedido', buyer: 'Comprador', address: 'Dirección', doubt: 'Qué preguntar', line: 'Línea' },
  right: 'Es correcta',
  rightFor: (order) => `La dirección del pedido ${order} es correcta`,
  foundRight: (order) => `Pedido ${order}: la dirección se dio por correcta`,
  imported: (count) =>
    count === 1 ? 'Una dirección parece incompleta' : `${String(count)} direcciones parecen incompletas`,
  storedAllTheSame: 'Estos pedidos se guardan igualmente; la página Pedidos y la mesa lo dicen otra vez.',
};

export const addressWords: Readonly<Record<Language, AddressWords>> = { en, es };

/** How a form of postcode is shown: digits as 9, letters as A. */
const shown = (form: string): string => form.replace(/N/g, '9').replace(/X/g, 'A');

function inEnglish(doubt: AddressDoubt): string {
  switch (doubt.about) {
    case 'no-address':
      return 'there is only a postcode';
    case 'no-street':
      return 'the street is missing';
    case 'no-number':
      return `no house number in “${doubt.found}”`;
    case 'no-town':
      return 'the town is missing';
    case 'no-region':
      return 'the state or province is missing';
    case 'postcode-form':
      return `postcode “${doubt.found}” is not like ${doubt.forms.slice(0, 2).map(shown).join(' or ')}`;
    case 'region-elsewhere':
      return `postcode ${doubt.found} lies in ${doubt.lies}, not in ${doubt.region}`;
  }
}

function inSpanish(doubt: AddressDoubt): string {
  switch (doubt.about) {
    case 'no-address':
      return 'solo hay un código postal';
    case 'no-street':
      return 'falta la calle';
    case 'no-number':
      return `falta el número de la casa en «${doubt.found}»`;
    case 'no-town':
      return 'falta la localidad';
    case 'no-region':
      return 'falta el estado o la provincia';
    case 'postcode-form':
      return `el código postal «${doubt.found}» no es como ${doubt.forms.slice(0, 2).map(shown).join(' o ')}`;
    case 'region-elsewhere':
      return `el código postal ${doubt.found} es de ${doubt.lies}, no de ${doubt.region}`;
  }
}

/** Each doubt as a person would say it. */
export function doubtsInWords(doubts: readonly AddressDoubt[], language: Language): readonly string[] {
  return doubts.map(language === 'es' ? inSpanish : inEnglish);
}
