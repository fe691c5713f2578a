import { describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { lookAt } from '#server/office/imports/look.ts';
import { previewImport } from '#server/office/imports/preview.ts';
import { readTable } from '#server/office/imports/table.ts';
import { importProblemInSpanish, importText } from '#shared/imports/problems-in-spanish.ts';
import type { Piece } from '#shared/garments/types.ts';
import { BAD_TABLES, type BadTable } from '#tests/support/bad-tables.ts';
import { CONFIG } from '#tests/support/config-folder.ts';

const shop = loadShop(CONFIG);
const stock = ['A-1', 'A-2', 'A-3', 'A-4'].map((sku): [string, Piece] => [sku, { sku, title: sku, kind: 't-shirt' }]);

/** What the import says of a table: its refusals, or why there is no table. */
async function judged({ bytes, subject }: BadTable) {
  const existing = { pieces: new Map(subject === 'orders' ? stock : []), orders: new Map() };
  try {
    const asked = { bytes, fileName: 'x.csv', shop, existing, now: Date.parse('2026-11-25T15:10:00Z') };
    const { preview } =
      subject === 'pieces' ? await previewImport({ ...asked, subject }) : await previewImport({ ...asked, subject });
    return { refused: preview.refused, error: null };
  } catch (error) {
    if (!isImportError(error)) throw error;
    return { refused: [], error };
  }
}

describe('a table with something wrong in it', () => {
  it.each(BAD_TABLES.map((table) => [table.name, table] as const))('names the place: %s', async (_name, table) => {
    const { refused, error } = await judged(table);
    if (error === null) expect(refused.map(({ line, column }) => [line, column])).toEqual(table.refused);
    else expect([error.code, error.line]).toEqual(table.refused);
  });

  it('is told of in Spanish as well, whatever it is', async () => {
    const texts = (await Promise.all(BAD_TABLES.map(judged))).flatMap(({ refused, error }) =>
      error === null ? refused.flatMap(({ expected, found }) => [expected, found]) : [error.message],
    );
    expect(texts.length).toBeGreaterThan(60);
    expect([...new Set(texts)].filter((text) => importProblemInSpanish(text) === null)).toEqual([]);
    // Values stay as the file has them.
    expect(importText('"A-1", which line 2 has too', 'es')).toBe('"A-1", que también está en la línea 2');
    expect(
      importText('line 4: expected a column for skus (skus, sku) and for buyer; found the columns a, b', 'es'),
    ).toBe('línea 4: se esperaba una columna para skus (skus, sku) y otra para buyer; están las columnas a, b');
  });

  it('that holds neither pieces nor orders says so, and shows what its columns hold', () => {
    const look = lookAt(readTable(Buffer.from('what,else\n1,two words\n1,"three\nmore"\n')), shop, []);
    expect(look).toMatchObject({
      subject: null,
      problem: 'line 1: expected the columns of pieces or of orders; found the columns what, else',
      samples: [['1'], ['two words', 'three more']],
    });
    expect(look.readings.orders.missing).toEqual(['order', 'skus', 'buyer', 'postcode', 'shipBy']);
    expect(importProblemInSpanish(look.problem ?? '')).not.toBeNull();
  });

  it('that lacks a column of what most of its columns belong to names the column', () => {
    const header = 'pedido;Bestellteile;comprador;calle;código postal;sale antes de';
    const look = lookAt(readTable(Buffer.from(`${header}\n1;A-1;Ida;Calle 4;55802;+1h\n`)), shop, []);
    expect(look.subject).toBeNull();
    expect(look.problem).toMatch(
      /^line 1: expected a column for skus \(skus, sku, [^)]+\); found the columns pedido, /,
    );
    expect(importProblemInSpanish(look.problem ?? '')).toMatch(/^línea 1: se esperaba una columna para skus/);
  });

  it('is known by a beginning that ends inside a character', () => {
    const bytes = Buffer.from('sku,kind,title\nA-1,t-shirt,añ'.repeat(1));
    const look = lookAt(readTable(bytes.subarray(0, -1), true), shop, []);
    expect(look).toMatchObject({ subject: 'pieces', encoding: 'utf-8' });
  });
});
