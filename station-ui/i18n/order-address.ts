import type { AddressField } from '#shared/wire/addresses.ts';
import type { Language } from '#shared/words/language.ts';

export interface OrderAddressWords {
  readonly open: string;
  readonly title: string;
  readonly fields: Readonly<Record<AddressField, string>>;
  readonly hints: Readonly<Partial<Record<AddressField, string>>>;
  readonly store: string;
  readonly keep: string;
  readonly stored: string;
  readonly toAsk: string;
  readonly refused: (expected: string, found: string) => string;
  readonly failures: Readonly<Record<string, string>>;
}

const en: OrderAddressWords = {
  open: 'Change the address …',
  title: 'Where this order goes',
  fields: { name: 'Name', lines: 'Address', postcode: 'Postcode', country: 'Country' },
  hints: {
    lines: 'A line each, as they stand on the label: street, then town',
    country: 'Its two letters (ISO 3166-1), such as US, or its name',
  },
  store: 'Store this address',
  keep: 'Leave it as it is',
  stored: 'The address is stored.',
  toAsk: 'The address is stored. Still to ask:',
  refused: (expected, found) => `Expected ${expected}; found ${found}`,
  failures: {
    'in-hand': 'A bench has it in hand: give it back on the page The day first.',
    'not-waiting': 'It no longer waits.',
    combined: 'It is made of several orders, or is one of them: take them apart on the page Orders first.',
    'parcel-finished': 'A parcel of it is packed already.',
    'unknown-order': 'There is no such order.',
  },
};

const es: OrderAddressWords = {
  open: 'Cambiar la dirección…',
  title: 'Adónde va este pedido',
  fields: { name: 'Nombre', lines: 'Dirección', postcode: 'Código postal', country: 'País' },
  hints: {
    lines: 'Una línea cada una, como en la etiqueta: calle y después población',
    country: 'Sus dos letras (ISO 3166-1), como US, o su nombre',
  },
  store: 'Guardar esta dirección',
  keep: 'Dejarla como está',
  stored: 'La dirección está guardada.',
  toAsk: 'La dirección está guardada. Queda por preguntar:',
  refused: (expected, found) => `Se esperaba ${expected}; está ${found}`,
  failures: {
    'in-hand': 'Un puesto lo tiene en mano: libérelo antes en la página El día.',
    'not-waiting': 'Ya no espera.',
    combined: 'Está hecho de varios pedidos, o es uno de ellos: sepárelos antes en la página Pedidos.',
    'parcel-finished': 'Un paquete suyo ya está embalado.',
    'unknown-order': 'No existe ese pedido.',
  },
};

export const orderAddressWords: Readonly<Record<Language, OrderAddressWords>> = { en, es };
