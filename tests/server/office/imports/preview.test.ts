import { describe, expect, it } from 'vitest';
import type { Piece } from '#shared/garments/types.ts';
import type { Order, OrderState } from '#shared/planning/types.ts';
import type { Language } from '#shared/words/language.ts';
import { parseMass } from '#shared/units/mass.ts';
import { previewImport, type Known } from '#server/office/imports/preview.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { importShop } from '#tests/support/import-shop.ts';

const now = Date.parse('2026-11-25T15:10:00Z');
const nothing: Known = { pieces: new Map(), orders: new Map() };

function pieces(text: string, existing = nothing, language?: Language) {
  return previewImport({
    bytes: new TextEncoder().encode(text),
    fileName: 'pieces.csv',
    subject: 'pieces',
    shop: importShop,
    existing,
    now,
    ...(language === undefined ? {} : { language }),
  });
}

function orders(text: string, existing: Known, at = now) {
  return previewImport({
    bytes: new TextEncoder().encode(text),
    fileName: 'orders.csv',
    subject: 'orders',
    shop: importShop,
    existing,
    now: at,
  });
}

function storing(records: readonly Piece[], stored: readonly Order[] = [], state: OrderState = 'open'): Known {
  return {
    pieces: new Map(records.map((piece) => [piece.sku, piece])),
    orders: new Map(stored.map((order) => [order.id, { order, state }])),
  };
}

const STOCK = storing(['OT-1', 'OT-2', 'OT-3', 'OT-4'].map((sku) => ({ sku, title: `Piece ${sku}`, kind: 't-shirt' })));

describe('importing pieces', () => {
  it('takes every field with its unit', async () => {
    const { preview, records } = await pieces(
      'SKU,Name,Garment type,Size,Fabric,colour,Weight (g),Flat width [cm],Price,place,Extra\n' +
        'OT-1,Harbour tee,T-shirt,m,DENIM,blue,"181,4",53.5,$12.50,K3-B,ignored\n',
    );
    expect(records).toEqual([
      {
        sku: 'OT-1',
        title: 'Harbour tee',
        kind: 't-shirt',
        size: 'M',
        cloth: 'denim',
        colour: 'blue',
        mass: parseMass('181.4 g'),
        measured: { width: 535 },
        value: { minor: 1250, currency: 'USD' },
        place: 'K3-B',
      },
    ]);
    expect(preview).toMatchObject({
      subject: 'pieces',
      file: 'pieces.csv',
      encoding: 'utf-8',
      delimiter: ',',
      unchanged: 0,
    });
    expect(preview.columns.at(-1)).toEqual({ header: 'Extra', field: null });
    expect(preview.columns[6]).toEqual({ header: 'Weight (g)', field: 'mass' });
    expect(preview.added).toEqual([{ line: 2, id: 'OT-1', summary: 'Harbour tee (t-shirt)', changes: [] }]);
  });

  it('reads a Spanish and a German sheet', async () => {
    const spanish = await pieces(
      'Código;Título;Prenda;Talla;Peso (kg);Precio\nOT-1;Suéter verde;sueter;L;0,45;1.234,50 $\n',
    );
    expect(spanish.records[0]).toMatchObject({
      kind: 'sweater',
      size: 'L',
      mass: parseMass('450 g'),
      value: { minor: 123_450, currency: 'USD' },
    });
    const german = await pieces(
      'Artikelnummer;Bezeichnung;Kleidungsstück;Größe;Gewicht in g\nOT-2;Hose;jeans;32;612,5\n',
    );
    expect(german.records[0]).toMatchObject({ kind: 'jeans', size: '32', mass: parseMass('612.5 g') });
  });

  it('names line, column, what was expected and what was there; and stores nothing of such a line', async () => {
    const { preview, records } = await pieces(
      'sku,title,kind,size,weight,price\n' +
        'OT-1,"two\nlines",t-shirt,M,5 oz,3\n' +
        'OT-2,x,tea cosy,M,heavy,3\n' +
        ',x,jeans,,,\n' +
        'OT 4,x,jeans,XL,,free\n' +
        'OT-5,x,jeans,32,,,,too many\n' +
        'OT-1,again,t-shirt,,,\n',
    );
    expect(records.map((piece) => piece.sku)).toEqual(['OT-1']);
    expect(preview.refused.map(({ line, column, found }) => [line, column, found])).toEqual([
      [4, 'kind', '"tea cosy"'],
      [4, 'weight', '"heavy"'],
      [5, 'sku', 'an empty cell'],
      [6, 'sku', '"OT 4"'],
      [6, 'size', '"XL"'],
      [6, 'price', '"free"'],
      [7, null, '8 cells'],
      [8, 'sku', '"OT-1", which line 2 has too'],
    ]);
    expect(preview.refused[0]?.expected).toBe('a kind: t-shirt, jeans, sweater');
    expect(preview.refused[4]?.expected).toBe('a size of jeans or nothing: 32, 34');
    // To people as they are called, and both ways are understood.
    const told = await pieces('sku,title,kind,size\nOT-1,x,gorro,\nOT-2,x,Vaqueros,XL\n', undefined, 'es');
    expect(told.preview.refused.map(({ expected }) => expected)).toEqual([
      'a kind: Camiseta, Vaqueros, Suéter',
      'a size of Vaqueros or nothing: 32, 34',
    ]);
  });

  it('finds nothing to do in the same file, and shows field by field what another one changes', async () => {
    const text = 'sku,title,kind,weight\nOT-1,Tee,t-shirt,5.1 oz\nOT-2,Jeans,jeans,\n';
    const first = await pieces(text);
    const again = await pieces(text, storing(first.records));
    expect(again.preview).toMatchObject({ added: [], changed: [], unchanged: 2, refused: [] });
    expect(again.records).toEqual([]);

    const other = await pieces(
      'sku,title,kind,weight\nOT-1,Tee,t-shirt,5.2 oz\nOT-2,Jeans,jeans,\n',
      storing(first.records),
    );
    expect(other.preview.changed).toEqual([
      {
        line: 2,
        id: 'OT-1',
        summary: 'Tee (t-shirt)',
        changes: [{ field: 'mass', before: '5.1 oz', after: '5.2 oz' }],
      },
    ]);
    expect(other.preview.unchanged).toBe(1);
    expect(other.records).toHaveLength(1);
  });

  it('keeps what was stored where the file has no such column', async () => {
    const first = await pieces('sku,title,kind,weight,width,place\nOT-1,Tee,t-shirt,5.1 oz,20 in,K1\n');
    const { records, preview } = await pieces('sku,kind,price\nOT-1,t-shirt,9\n', storing(first.records));
    expect(records).toEqual([{ ...first.records[0], value: { minor: 900, currency: 'USD' } }]);
    expect(preview.changed[0]?.changes).toEqual([{ field: 'value', before: '', after: '$9.00' }]);
  });

  it('refuses a SKU that a scan would take for something else', async () => {
    const stored = storing(
      [],
      [{ id: '4101', pieces: [], buyer: 'x', address: [], to: { postcode: '55802', country: 'US' }, shipBy: '' }],
    );
    const { preview, records } = await previewImport({
      bytes: new TextEncoder().encode(
        'sku,kind\n4101,jeans\nBFC-NEXT,jeans\nSTAFF-1,jeans\n036000241458,jeans\n036000241457,jeans\nOT-1,jeans\n',
      ),
      fileName: 'pieces.csv',
      subject: 'pieces',
      shop: {
        ...importShop,
        staff: [{ id: 'ida', name: 'Ida', badge: 'STAFF-1', language: 'en', role: 'packer' }],
      },
      existing: stored,
      now,
    });
    // 03600024145 has the check digit 7 (GS1 General Specifications, the usual UPC-A example).
    expect(records.map((piece) => piece.sku)).toEqual(['036000241457', 'OT-1']);
    expect(preview.refused.map(({ line, found }) => [line, found])).toEqual([
      [2, '"4101", which scans as an order'],
      [3, '"BFC-NEXT", which scans as a command card'],
      [4, '"STAFF-1", which scans as a badge'],
      [5, '"036000241458", which scans as a damaged code'],
    ]);
  });

  it('refuses a file without the columns that it needs', async () => {
    try {
      await pieces('sku,colour\nOT-1,red\n');
      expect.unreachable();
    } catch (error) {
      expect(isImportError(error) && error.code).toBe('columns-missing');
      expect(String(error)).toMatch(/a column for kind \(kind, garment type.*found the columns sku, colour/);
    }
  });
});

const HEADER = 'order,sku,buyer,address,city,region,zip,ship by date,service,notes\n';

describe('importing orders', () => {
  it('takes an order of one row, of several rows and of a list of SKUs', async () => {
    const { records, preview } = await orders(
      `${HEADER}A1,OT-1,Ida Wren,"1 Lark Lane\nApt 2",Duluth,MN,55802,12/01/2026,Light Parcel,"Porch, please"\n` +
        'A2,OT-2,Otis Pearl,2 Lark Lane,Boston,MA,02134,2026-12-02 09:00,,\n' +
        'A2,OT-3,,,,,,,,\n',
      STOCK,
    );
    expect(preview.refused).toEqual([]);
    expect(records[0]).toEqual({
      id: 'A1',
      pieces: [{ sku: 'OT-1', count: 1 }],
      buyer: 'Ida Wren',
      address: ['1 Lark Lane', 'Apt 2', 'Duluth MN 55802'],
      to: { postcode: '55802', country: 'US' },
      shipBy: '2026-12-01T22:30:00.000Z',
      service: 'light-parcel',
      note: 'Porch, please',
    });
    expect(records[1]?.pieces.map((piece) => piece.sku)).toEqual(['OT-2', 'OT-3']);
    expect(preview.added.map(({ line, id, summary }) => [line, id, summary])).toEqual([
      [2, 'A1', 'Ida Wren, 55802: 1 piece'],
      [4, 'A2', 'Otis Pearl, 02134: 2 pieces'],
    ]);
    for (const list of ['OT-1 OT-2', '"OT-1, OT-2"', 'OT-1;OT-2', 'OT-1 | OT-2', '"OT-1\nOT-2"']) {
      const one = await orders(`order,sku,buyer,zip,shipBy\nA1,${list},Ida,55802,+4h\n`, STOCK);
      expect(
        one.records[0]?.pieces.map((piece) => piece.sku),
        list,
      ).toEqual(['OT-1', 'OT-2']);
    }
  });

  it('does not count a time from now as a change when the same file comes again', async () => {
    const text = `${HEADER}A1,OT-1,Ida,1 Lark Lane,Duluth,MN,55802,+4h,,\n`;
    const first = await orders(text, STOCK);
    expect(first.records[0]?.shipBy).toBe('2026-11-25T19:10:00.000Z');
    const later = await orders(text, { ...STOCK, orders: storing([], first.records).orders }, now + 3_600_000);
    expect(later.preview).toMatchObject({ added: [], changed: [], unchanged: 1, refused: [] });
  });

  it('refuses a piece in two orders and names both lines', async () => {
    const { records, preview } = await orders(
      `${HEADER}A1,OT-1,Ida,x,Duluth,MN,55802,+4h,,\nA2,OT-2 OT-1,Otis,x,Duluth,MN,55802,+4h,,\n`,
      STOCK,
    );
    expect(records.map((order) => order.id)).toEqual(['A1']);
    expect(preview.refused).toEqual([
      {
        line: 3,
        column: 'sku',
        expected: 'a piece that no other open order has',
        found: '"OT-1" on line 3, which belongs to order A1 on line 2',
      },
    ]);
  });

  it('refuses a piece of an open order in the store, but not of one that has left or was cancelled', async () => {
    const stored = (await orders(`${HEADER}A1,OT-1,Ida,x,Duluth,MN,55802,+4h,,\n`, STOCK)).records;
    const text = `${HEADER}A9,OT-1,Otis,x,Duluth,MN,55802,+4h,,\n`;
    for (const state of ['open', 'packing', 'set-aside'] as const) {
      const { preview } = await orders(text, { ...STOCK, orders: storing([], stored, state).orders });
      expect(preview.refused[0]?.found, state).toBe(
        '"OT-1" on line 2, which belongs to order A1, which was imported before',
      );
    }
    for (const state of ['packed', 'cancelled'] as const) {
      const { records } = await orders(text, { ...STOCK, orders: storing([], stored, state).orders });
      expect(
        records.map((order) => order.id),
        state,
      ).toEqual(['A9']);
    }
  });

  it('lets a piece move from one order to another in the same file', async () => {
    const stored = (await orders(`${HEADER}A1,OT-1 OT-2,Ida,x,Duluth,MN,55802,+4h,,\n`, STOCK)).records;
    const { preview } = await orders(
      `${HEADER}A9,OT-2,Otis,x,Duluth,MN,55802,+4h,,\nA1,OT-1,Ida,x,Duluth,MN,55802,+4h,,\n`,
      {
        ...STOCK,
        orders: storing([], stored).orders,
      },
    );
    expect(preview.refused).toEqual([]);
    expect(preview.changed[0]?.changes).toEqual([{ field: 'pieces', before: 'OT-1 OT-2', after: 'OT-1' }]);
    const spoilt = await orders(
      `${HEADER}A9,OT-2,Otis,x,Duluth,MN,55802,+4h,,\nA1,OT-1,Ida,x,Duluth,MN,wrong!,+4h,,\n`,
      {
        ...STOCK,
        orders: storing([], stored).orders,
      },
    );
    expect(spoilt.records).toEqual([]);
    expect(spoilt.preview.refused.map((each) => each.line)).toEqual([2, 3]);
  });

  it('names each bad cell of an order and stores no part of it', async () => {
    const { records, preview } = await orders(
      `${HEADER}A1,OT-1,Ida,x,Duluth,MN,2134,soon,Carrier pigeon,\n` +
        'A1,OT-9,,,,,,,,\n' +
        'A1,OT-1,Somebody else,,,,,,,\n' +
        ',OT-2,Otis,x,Duluth,MN,55802,+4h,,\n' +
        'A3,OT-3 OT-3,Nell,x,Duluth,MN,55802,+4h,,\n',
      STOCK,
    );
    expect(records).toEqual([]);
    expect(preview.refused.map(({ line, column, found }) => [line, column, found])).toEqual([
      [2, 'zip', '"2134"'],
      [2, 'ship by date', '"soon"'],
      [2, 'service', '"Carrier pigeon"'],
      [3, 'sku', '"OT-9"'],
      [4, 'buyer', '"Somebody else"'],
      [4, 'sku', '"OT-1", which line 2 has too'],
      [5, 'order', 'an empty cell'],
      [6, 'sku', '"OT-3" twice on line 6'],
    ]);
    expect(preview.refused[0]?.expected).toContain('leading zero');
  });

  it('refuses an order with the code of a piece', async () => {
    const { preview } = await orders(`${HEADER}OT-2,OT-1,Ida,x,Duluth,MN,55802,+4h,,\n`, STOCK);
    expect(preview.refused[0]).toMatchObject({
      line: 2,
      column: 'order',
      found: '"OT-2", which is the code of a piece',
    });
  });

  it('changes no order that is being packed or has left', async () => {
    const stored = (await orders(`${HEADER}A1,OT-1,Ida,x,Duluth,MN,55802,+4h,,\n`, STOCK)).records;
    const changed = `${HEADER}A1,OT-1,Ida,y,Duluth,MN,55802,+4h,,\n`;
    for (const [state, refused] of [
      ['open', 0],
      ['set-aside', 0],
      ['packing', 1],
      ['packed', 1],
      ['cancelled', 1],
    ] as const) {
      const existing = { ...STOCK, orders: storing([], stored, state).orders };
      expect((await orders(changed, existing)).preview.refused, state).toHaveLength(refused);
      expect((await orders(`${HEADER}A1,OT-1,Ida,x,Duluth,MN,55802,+4h,,\n`, existing)).preview.unchanged, state).toBe(
        1,
      );
    }
  });

  it('writes a foreign address the way that country does', async () => {
    const { records } = await orders(
      'order,sku,buyer,address,city,zip,Land,shipBy\nA1,OT-1,Greta,Lange Gasse 1,Beispielstadt,01234,Deutschland,+4h\n',
      STOCK,
    );
    expect(records[0]).toMatchObject({
      address: ['Lange Gasse 1', '01234 Beispielstadt', 'DE'],
      to: { postcode: '01234', country: 'DE' },
    });
  });
});
