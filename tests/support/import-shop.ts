import type { Cloth, Kind } from '#shared/garments/types.ts';
import type { RateCard } from '#shared/rating/rate-card.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massFromDecimal } from '#shared/units/mass.ts';

const kind = (id: string, en: string, es: string, sizes: readonly string[]): Kind => ({
  id,
  name: { en, es },
  outline: 'top',
  sizes: Object.fromEntries(sizes.map((size) => [size, { width: 500, length: 700 }])),
  defaultSize: sizes[0] ?? 'M',
  defaultCloth: 'jersey',
  mass: { mean: 200, sd: 40 },
  clothLayers: 2,
  recipes: [],
  cautions: [],
  source: 'made up for the tests',
});

const cloth = (id: string, en: string, es: string): Cloth => ({
  id,
  name: { en, es },
  arealMass: 180,
  thicknessFree: 0.9,
  thicknessPressed: 0.6,
  thicknessSpread: 0.2,
  bendingLength: 20,
  mayPress: true,
  source: 'made up for the tests',
});

const byId = <Thing extends { readonly id: string }>(...things: readonly Thing[]): Map<string, Thing> =>
  new Map(things.map((thing) => [thing.id, thing]));

const card: RateCard = {
  carrier: 'merrow-post',
  name: { en: 'Merrow Post', es: 'Correos Merrow' },
  currency: 'USD',
  units: { mass: 'oz', length: 'in' },
  from: '2026-01-01',
  zones: [{ by: 'flat', zone: '1' }],
  services: [
    {
      id: 'light-parcel',
      name: { en: 'Light parcel', es: 'Paquete ligero' },
      refuses: [],
      limits: [],
      prices: [],
      discounts: [],
      surcharges: [],
    },
  ],
};

/** A shop with just enough in it to import into. */
export const importShop: Shop = {
  name: 'A shop for tests',
  currency: 'USD',
  timeZone: 'America/Chicago',
  language: 'en',
  units: { mass: 'oz', massPlaces: 1, length: 'in' },
  from: { postcode: '55802', country: 'US' },
  address: ['A street'],
  slip: { thanks: { en: 'Thanks', es: 'Gracias' }, returns: { en: 'Returns', es: 'Devoluciones' } },
  labour: { perHour: { minor: 2100, currency: 'USD' }, repackSeconds: 90 },
  collections: [],
  wardrobe: {
    kinds: byId(
      kind('t-shirt', 'T-shirt', 'Camiseta', ['S', 'M', 'L']),
      kind('jeans', 'Jeans', 'Vaqueros', ['32', '34']),
      kind('sweater', 'Sweater', 'Suéter', ['M', 'L']),
    ),
    cloths: byId(cloth('jersey', 'Jersey', 'Punto de jersey'), cloth('denim', 'Denim', 'Mezclilla')),
  },
  recipes: new Map(),
  containers: new Map(),
  wraps: new Map(),
  rates: { cards: [card], places: () => null },
  additions: [{ name: 'label', mass: massFromDecimal('0.1', 'oz'), plusMinus: massFromDecimal('0.02', 'oz') }],
  staff: [],
  benches: [],
  importAliases: {
    pieces: {
      sku: ['item code', 'código', 'Artikelnummer'],
      title: ['name', 'título', 'Bezeichnung'],
      kind: ['garment type', 'prenda', 'Kleidungsstück'],
      mass: ['weight', 'peso', 'Gewicht'],
      width: ['flat width', 'ancho', 'Breite'],
      value: ['price', 'precio', 'Preis'],
      size: ['talla', 'Größe'],
      cloth: ['fabric', 'tela', 'Stoff'],
    },
    orders: {
      order: ['order number', 'pedido'],
      skus: ['sku', 'pieces', 'piezas'],
      buyer: ['name', 'comprador'],
      street: ['address', 'dirección'],
      postcode: ['zip', 'código postal', 'PLZ'],
      country: ['país', 'Land'],
      shipBy: ['ship by date', 'enviar antes de'],
      note: ['notes', 'nota'],
    },
  },
  importFormats: { days: ['MM/DD/YYYY', 'DD.MM.YYYY'], shipByTime: '16:30', decimalMark: 'point' },
};
