import { stringify } from 'csv-stringify/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { previewImport } from '#server/office/imports/preview.ts';
import { readTable, type TableRow } from '#server/office/imports/table.ts';
import type { Piece } from '#shared/garments/types.ts';
import { parseMass } from '#shared/units/mass.ts';
import { CONFIG } from '#tests/support/config-folder.ts';

const shop = loadShop(CONFIG);
const now = Date.parse('2026-11-25T15:10:00Z');

/** Latin-1 and Windows-1252 agree on everything that these sheets use. */
const windows = (text: string): Uint8Array => Buffer.from(text, 'latin1');
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

function pieces(bytes: Uint8Array) {
  return previewImport({
    bytes,
    fileName: 'x.csv',
    subject: 'pieces',
    shop,
    existing: { pieces: new Map(), orders: new Map() },
    now,
  });
}

function orders(bytes: Uint8Array, skus: readonly string[]) {
  const stock = skus.map((sku): [string, Piece] => [sku, { sku, title: sku, kind: 't-shirt' }]);
  return previewImport({
    bytes,
    fileName: 'x.csv',
    subject: 'orders',
    shop,
    existing: { pieces: new Map(stock), orders: new Map() },
    now,
  });
}

describe('sheets of several countries, with the headers of the demo config', () => {
  it('a Spanish one', async () => {
    const { records, preview } = await pieces(
      windows(
        'Código;Título;Prenda;Talla;Tela;Peso (g);Ancho [cm];Precio;Ubicación\r\nA-1;Suéter azul;Suéter;m;;412,5;52,5;1.250,00 $;K1\r\n',
      ),
    );
    expect(preview.refused).toEqual([]);
    expect(preview.encoding).toBe('windows-1252');
    expect(records[0]).toMatchObject({
      kind: 'sweater',
      size: 'M',
      mass: parseMass('412.5 g'),
      measured: { width: 525 },
      value: { minor: 125_000, currency: 'USD' },
      place: 'K1',
    });
  });

  it('a German one', async () => {
    const { records, preview } = await pieces(
      windows(
        'Artikelnummer;Bezeichnung;Kategorie;Größe;Gewicht in kg;Breite (cm);Regal\r\nB-2;Strickjacke grün;cardigan;L;0,455;;R2\r\n',
      ),
    );
    expect(preview.refused).toEqual([]);
    expect(records[0]).toMatchObject({ title: 'Strickjacke grün', size: 'L', mass: parseMass('455 g'), place: 'R2' });
  });

  it('a French one', async () => {
    const { records, preview } = await orders(
      windows(
        'N°;Numéro de commande;Référence;Destinataire;Adresse;Ville;Code postal;Pays;À expédier avant;Frais de port;Remarque\r\n' +
          '1;C-9;A-1|A-2;Zoé Fauvel;3 rue du Fil;Val-Ourlet;75011;États-Unis;26.11.2026;$ 7,50;Merci !\r\n',
      ),
      ['A-1', 'A-2'],
    );
    expect(preview.refused).toEqual([]);
    expect(preview.columns[0]).toEqual({ header: 'N°', field: null });
    expect(records[0]).toMatchObject({
      id: 'C-9',
      buyer: 'Zoé Fauvel',
      to: { postcode: '75011', country: 'US' },
      shipBy: '2026-11-26T22:30:00.000Z',
      paidPostage: { minor: 750, currency: 'USD' },
      note: 'Merci !',
    });
  });

  it('one with what spreadsheets do to numbers', async () => {
    const { records, preview } = await orders(
      utf8(
        'Order number,SKU,Recipient,Address,ZIP code,Ship by,Quantity\n' +
          '="0417",A-1,Ida Wren,1 Lark Lane,="02134",+4h,1\n' +
          "418,A-2,Otis Pearl,2 Lark Lane,'05401,+4h,1.0\n" +
          '4.19E+11,A-3,Nell Moss,3 Lark Lane,55802,+4h,1\n' +
          '420,A-4,#N/A,4 Lark Lane,55802,+4h,2\n',
      ),
      ['A-1', 'A-2', 'A-3', 'A-4'],
    );
    expect(records.map((order) => [order.id, order.to.postcode])).toEqual([
      ['0417', '02134'],
      ['418', '05401'],
    ]);
    expect(preview.refused.map(({ line, column, found }) => [line, column, found])).toEqual([
      [4, 'Order number', '"4.19E+11"'],
      [5, 'Quantity', '"2"'],
      [5, 'Recipient', '"#N/A"'],
    ]);
  });

  it('one where several columns could be the buyer takes the alias that stands first', async () => {
    const { preview } = await orders(
      utf8('Order,Item,SKU,Name,Recipient,ZIP,Ship by\n1,x,A-1,Login7,Ida Wren,55802,+4h\n'),
      ['A-1'],
    );
    expect(preview.columns.find((column) => column.field === 'buyer')?.header).toBe('Recipient');
    expect(preview.columns.find((column) => column.header === 'Name')?.field).toBeNull();
  });
});

describe('whatever a spreadsheet writes', () => {
  const cell = fc.string({ unit: fc.constantFrom(...Array.from('aZ09 éñü"\',;\t\n.-')), maxLength: 12 });
  const table = fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 8 });

  it.each([
    ['UTF-8', (text: string) => utf8(text)],
    ['UTF-8 with a mark', (text: string) => utf8(`\ufeff${text}`)],
    ['UTF-16LE', (text: string) => Buffer.from(`\ufeff${text}`, 'utf16le')],
    // Something outside ASCII in the header makes sure that it is not valid UTF-8.
    ['Windows-1252', windows],
  ])('comes back cell for cell from %s, with the line of every record', (_name, encode) => {
    fc.assert(
      fc.property(
        table,
        fc.constantFrom(',', ';', '\t'),
        fc.constantFrom('\n', '\r\n'),
        fc.boolean(),
        (rows, delimiter, end, quoted) => {
          const text = stringify([['uno', 'dosé', 'tres'], ...rows], {
            delimiter,
            record_delimiter: end,
            quoted,
            quoted_match: /[\r\n]/,
          });
          const filled = rows.filter((row) => row.some((each) => each.trim() !== ''));
          fc.pre(filled.length > 0);
          const read: TableRow[] = [];
          const opened = readTable(encode(text));
          opened.eachRow((row) => read.push(row));
          expect(opened.delimiter).toBe(delimiter);
          expect(read.map((row) => row.cells)).toEqual(filled);
          let line = 2;
          const lines = rows.map((row) => {
            const start = line;
            line += 1 + row.join('').split('\n').length - 1;
            return { start, empty: row.every((each) => each.trim() === '') };
          });
          expect(read.map((row) => row.line)).toEqual(lines.filter(({ empty }) => !empty).map(({ start }) => start));
        },
      ),
      { numRuns: 60 },
    );
  });
});
