import type { FlatMeasures, Kind, Piece } from '#shared/garments/types.ts';
import type { PieceField } from '#shared/shop/import-fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';
import { formatLength, lengthFromMillimetres, LENGTH_UNITS, type LengthUnit } from '#shared/units/length.ts';
import { formatMassPlain, MASS_UNITS, type MassUnit } from '#shared/units/mass.ts';
import { formatMoney } from '#shared/units/money.ts';
import { TARIFF_NUMBER } from '#shared/shipments/fields.ts';
import { countryCode } from './countries.ts';
import { namesOf, NameIndex } from './name-index.ts';
import { lengthCell, massCell, moneyCell } from './quantities.ts';
import type { RowReader } from './row.ts';

/** A code that a barcode can carry and a person can read: no blanks inside. */
export const CODE = /^[\x21-\x7e]{1,40}$/;
const COUNTRY_WORDS = 'a country, by its two-letter code (ISO 3166-1) or its name';
export const CODE_WORDS = 'a code of up to 40 letters, digits and signs without blanks';

const MEASURES = [
  'width',
  'length',
  'sleeveLength',
  'inseam',
  'height',
] as const satisfies readonly (keyof FlatMeasures & PieceField)[];

export interface PieceReading {
  readonly shop: Shop;
  readonly kinds: NameIndex;
  readonly cloths: NameIndex;
  readonly sizesOf: ReadonlyMap<string, NameIndex>;
  /** how a kind is called where it is told of */
  readonly called: (thing: Pick<Kind, 'id' | 'name'>) => string;
  /** what is expected of a cell */
  readonly kindWords: string;
  readonly clothWords: string;
}

/** @param language in which kinds and cloths are named to whoever looks at the file; by their ids without it */
export function pieceReading(shop: Shop, language?: Language): PieceReading {
  const { kinds, cloths } = shop.wardrobe;
  const called = ({ id, name }: Pick<Kind, 'id' | 'name'>): string => (language === undefined ? id : name[language]);
  const all = (things: ReadonlyMap<string, Pick<Kind, 'id' | 'name'>>): string =>
    listOf([...things.values()].map(called));
  const sizes = (kind: Kind): NameIndex => new NameIndex(Object.keys(kind.sizes).map((id) => ({ id, names: [] })));
  return {
    shop,
    kinds: namesOf(kinds),
    cloths: namesOf(cloths),
    called,
    kindWords: `a kind: ${all(kinds)}`,
    clothWords: `a cloth or nothing: ${all(cloths)}`,
    sizesOf: new Map([...kinds.values()].map((kind) => [kind.id, sizes(kind)])),
  };
}

/** A row as a piece; what is wrong with it is gathered by the row, and then there is no piece. */
export function readPiece(row: RowReader<PieceField>, reading: PieceReading): Piece | null {
  const { shop } = reading;
  const mark = shop.importFormats.decimalMark;
  const sku = row.needed('sku', CODE_WORDS);
  if (sku !== '' && !CODE.test(sku)) row.refuse('sku', CODE_WORDS, `"${sku}"`);

  const kindText = row.needed('kind', reading.kindWords);
  const kindId = kindText === '' ? undefined : reading.kinds.idOf(kindText);
  if (kindText !== '' && kindId === undefined) {
    row.refuse('kind', reading.kindWords, `"${kindText}"`);
  }
  const kind = kindId === undefined ? undefined : shop.wardrobe.kinds.get(kindId);
  const size = kind === undefined ? undefined : readSize(row, kind, reading);
  const cloth = row.value('cloth', (text) => {
    const id = reading.cloths.idOf(text);
    if (id !== undefined) return { ok: true, value: id };
    return { ok: false, expected: reading.clothWords };
  });
  const mass = row.value('mass', (text) => massCell(text, massUnit(row.unit('mass'), shop.units.mass), mark));
  const measured: Partial<Record<keyof FlatMeasures, number>> = {};
  for (const field of MEASURES) {
    const measure = row.value(field, (text) => lengthCell(text, lengthUnit(row.unit(field), shop.units.length), mark));
    if (measure !== undefined) measured[field] = measure;
  }
  const value = row.value('value', (text) => moneyCell(text, shop.currency, mark));
  const colour = row.text('colour');
  const place = row.text('place');
  const origin = row.value('origin', (text) => {
    const code = countryCode(text);
    return code === undefined ? { ok: false, expected: COUNTRY_WORDS } : { ok: true, value: code };
  });
  const hsCode = row.value('hsCode', (text) =>
    TARIFF_NUMBER.test(text)
      ? { ok: true, value: text }
      : { ok: false, expected: 'a tariff number of the Harmonized System, such as 6203.42' },
  );
  if (row.refused.length > 0 || kindId === undefined) return null;
  return {
    sku,
    title: row.text('title') ?? kind?.name[shop.language] ?? kindId,
    kind: kindId,
    ...(size === undefined ? {} : { size }),
    ...(cloth === undefined ? {} : { cloth }),
    ...(colour === undefined ? {} : { colour }),
    ...(mass === undefined ? {} : { mass }),
    ...(Object.keys(measured).length === 0 ? {} : { measured }),
    ...(value === undefined ? {} : { value }),
    ...(place === undefined ? {} : { place }),
    ...(origin === undefined ? {} : { origin }),
    ...(hsCode === undefined ? {} : { hsCode }),
  };
}

function readSize(row: RowReader<PieceField>, kind: Kind, reading: PieceReading): string | undefined {
  return row.value('size', (text) => {
    const size = reading.sizesOf.get(kind.id)?.idOf(text);
    if (size !== undefined) return { ok: true, value: size };
    return { ok: false, expected: `a size of ${reading.called(kind)} or nothing: ${listOf(Object.keys(kind.sizes))}` };
  });
}

export function listOf(words: Iterable<string>): string {
  const all = [...words];
  return all.length <= 20 ? all.join(', ') : `${all.slice(0, 20).join(', ')} and ${String(all.length - 20)} more`;
}

function massUnit(named: string | null, usual: MassUnit): MassUnit {
  if (named === 'lbs') return 'lb';
  if (named === 'gr') return 'g';
  return MASS_UNITS.find((unit) => unit === named) ?? usual;
}

function lengthUnit(named: string | null, usual: LengthUnit): LengthUnit {
  return named === '"' ? 'in' : (LENGTH_UNITS.find((unit) => unit === named) ?? usual);
}

/** Fields whose column the file does not have stay as they were stored: a price list wipes out no intake weight. */
export function withStored(read: Piece, stored: Piece, has: (field: PieceField) => boolean): Piece {
  const kept: Record<string, unknown> = {};
  for (const field of ['title', 'size', 'cloth', 'colour', 'mass', 'value', 'place', 'origin', 'hsCode'] as const) {
    if (!has(field) && stored[field] !== undefined) kept[field] = stored[field];
  }
  const measured: Record<string, number> = { ...read.measured };
  for (const [measure, value] of Object.entries(stored.measured ?? {})) {
    const isColumn = MEASURES.find((field) => field === measure);
    if (isColumn === undefined || !has(isColumn)) measured[measure] = value;
  }
  return { ...read, ...kept, ...(Object.keys(measured).length === 0 ? {} : { measured }) };
}

/** A piece's fields as text, for the preview and to see what a new file changes. */
export function pieceTexts(piece: Piece, shop: Shop): Record<string, string> {
  const texts: Record<string, string> = {
    title: piece.title,
    kind: piece.kind,
    size: piece.size ?? '',
    cloth: piece.cloth ?? '',
    colour: piece.colour ?? '',
    mass: piece.mass === undefined ? '' : formatMassPlain(piece.mass, shop.units.mass),
    value: piece.value === undefined ? '' : formatMoney(piece.value),
    place: piece.place ?? '',
    origin: piece.origin ?? '',
    hsCode: piece.hsCode ?? '',
  };
  for (const field of MEASURES) {
    const measure = piece.measured?.[field];
    texts[field] =
      measure === undefined
        ? ''
        : formatLength(lengthFromMillimetres(measure), shop.units.length, 2).replace(/\.?0+ /, ' ');
  }
  return texts;
}
