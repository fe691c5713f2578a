import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readParcelsCsv } from '#server/office/exports/parcels-csv.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import type { ImportSource } from '#shared/imports/source.ts';
import type { ImportLook } from '#shared/wire/imports.ts';
import type { ImportApplied, ImportPreview, OfficeError, OrderPage } from '#shared/wire/office.ts';

const data = temporaryFolder('imports');
let server: ServerProcess;

beforeAll(async () => {
  server = await startProcess({ data: data.path });
});

afterAll(async () => {
  await server.stop();
  data.remove();
});

async function post(
  path: string,
  body?: Uint8Array,
  file = 'file.csv',
  type = 'text/csv',
): Promise<{ status: number; body: unknown }> {
  const response = await fetch(`${server.url}/api${path}`, {
    method: 'POST',
    ...(body === undefined ? {} : { body }),
    headers: { 'x-file-name': encodeURIComponent(file), 'content-type': type },
  });
  return { status: response.status, body: await response.json() };
}

const orders = async () => ((await (await fetch(`${server.url}/api/orders?count=500`)).json()) as OrderPage).rows;

/** As a spreadsheet in Germany saves it: semicolons, Windows-1252, its own words in the header. */
const windows1252 = (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0));

const PIECES = windows1252(
  [
    'SKU;Art;Titel;Größe;Gewicht;Platz',
    'ZZ-1;t-shirt;Ringelhemd, "Müller";M;5,5 oz;A1',
    'ZZ-2;jeans;Blaue Jeans;34;;A2',
  ].join('\r\n'),
);

describe('an import', () => {
  it('stores nothing before it is applied, all of it then, and nothing the second time', async () => {
    const preview = (await post('/imports/pieces/preview', PIECES, 'stücke.csv')).body as ImportPreview;
    expect(preview).toMatchObject({ file: 'stücke.csv', encoding: 'windows-1252', delimiter: ';', refused: [] });
    expect(preview.added.map((each) => each.id)).toEqual(['ZZ-1', 'ZZ-2']);
    const still = (await post('/imports/pieces/preview', PIECES)).body as ImportPreview;
    expect(still.added).toHaveLength(2);
    const applied = (await post(`/imports/${preview.id}/apply`)).body as ImportApplied;
    expect(applied).toEqual({ added: 2, changed: 0, unchanged: 0, refused: 0 });
    const again = (await post('/imports/pieces/preview', PIECES)).body as ImportPreview;
    expect(again).toMatchObject({ added: [], changed: [], unchanged: 2, refused: [] });
  });

  it('names each bad line of an orders file and stores none until confirmed, then only the good ones', async () => {
    const file = new TextEncoder().encode(
      [
        'order,sku,buyer,postcode,ship by,service',
        'Z-1,ZZ-1,Ada Good,55802,2027-01-05,',
        'Z-2,NOPE-9,Bo Wrong,55802,2027-01-05,',
        'Z-3,ZZ-2,Cy Late,55802,someday,',
        'Z-4,ZZ-1,Di Second,55802,2027-01-05,',
      ].join('\n'),
    );
    const before = await orders();
    const preview = (await post('/imports/orders/preview', file, 'orders.csv')).body as ImportPreview;
    const refusedLines = preview.refused.map((each) => each.line);
    expect(refusedLines).toContain(3);
    expect(refusedLines).toContain(4);
    // One piece cannot go to two buyers: the file itself is in doubt, and both lines are named.
    expect(preview.refused.filter((each) => each.found.includes('ZZ-1')).length).toBeGreaterThan(0);
    expect(preview.refused.every((each) => each.expected !== '' && each.found !== '')).toBe(true);
    expect(await orders()).toEqual(before);
    await post(`/imports/${preview.id}/apply`);
    const added = (await orders()).filter((row) => row.id.startsWith('Z-')).map((row) => row.id);
    expect(added).toEqual(preview.added.map((each) => each.id));
    expect(added).not.toContain('Z-2');
    expect(added).not.toContain('Z-3');
  });

  it.each([
    ['an empty file', new Uint8Array()],
    ['a picture', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13])],
    ['another table', new TextEncoder().encode('a,b\n1,2\n')],
  ])('%s is refused with a message and stores nothing', async (_name, bytes) => {
    const { status, body } = await post('/imports/orders/preview', bytes);
    expect(status).toBe(422);
    expect((body as OfficeError).message.length).toBeGreaterThan(20);
  });

  it('a preview is applied once', async () => {
    const preview = (await post('/imports/pieces/preview', PIECES)).body as ImportPreview;
    expect((await post(`/imports/${preview.id}/apply`)).status).toBe(200);
    expect(await post(`/imports/${preview.id}/apply`)).toMatchObject({ status: 404, body: { error: 'preview-gone' } });
  });

  it('of orders is judged by the pieces of a file that will be stored before it, and waits for that', async () => {
    const text = (...lines: readonly string[]) => new TextEncoder().encode(lines.join('\n'));
    const pieces = (await post('/imports/pieces/preview', text('sku,kind', 'YY-1,jeans'))).body as ImportPreview;
    const file = text('order,sku,buyer,postcode,ship by', 'Y-1,YY-1,Ada Good,55802,2027-01-05');
    const alone = (await post('/imports/orders/preview', file)).body as ImportPreview;
    expect(alone.refused.map(({ found }) => found)).toEqual(['"YY-1"']);
    const after = (await post(`/imports/orders/preview?after=${pieces.id}`, file)).body as ImportPreview;
    expect(after).toMatchObject({ refused: [], counts: { added: 1 } });
    // A second file that wants the same piece is judged by the first one.
    const thief = text('order,sku,buyer,postcode,ship by', 'Y-2,YY-1,Bo Wrong,55802,2027-01-05');
    const both = `/imports/orders/preview?after=${pieces.id},${after.id}`;
    expect(((await post(both, thief)).body as ImportPreview).refused).toMatchObject([{ line: 2, column: 'sku' }]);
    expect(await post(`/imports/${after.id}/apply`)).toMatchObject({ status: 409, body: { error: 'needs-others' } });
    expect((await post(`/imports/${pieces.id}/apply`)).status).toBe(200);
    // Looked at before the first was stored, so only the storing can tell.
    const late = (await post('/imports/orders/preview', thief)).body as ImportPreview;
    expect((await post(`/imports/${after.id}/apply`)).body).toMatchObject({ added: 1 });
    expect((await post(`/imports/${late.id}/apply`)).body).toMatchObject({ added: 0, refused: 1 });
    expect(await post('/imports/orders/preview?after=nobody', file)).toMatchObject({ status: 404 });
  });

  it('reads the files of a source as was said once, until that is forgotten', async () => {
    const file = new TextEncoder().encode('Nr;Das\nXX-1;jeans\n');
    const look = (await post('/imports/look', file)).body as ImportLook;
    expect(look).toMatchObject({ subject: null, header: ['Nr', 'Das'], samples: [['XX-1'], ['jeans']] });
    expect((await post('/imports/pieces/preview', file)).body).toMatchObject({ error: 'columns-missing' });
    const json = (path: string, body: unknown) =>
      post(path, new TextEncoder().encode(JSON.stringify(body)), '', 'application/json');
    const mapping = {
      name: 'stall',
      subject: 'pieces',
      header: look.header,
      fields: { sku: { column: 0 }, kind: { column: 1 } },
      decimalMark: null,
      days: null,
    };
    for (const fields of [
      { sku: { column: 0 } },
      { ...mapping.fields, moon: { column: 1 } },
      { ...mapping.fields, size: { column: 9 } },
    ]) {
      expect(await json('/import-sources', { ...mapping, fields })).toMatchObject({ status: 422 });
    }
    const [source] = (await json('/import-sources', mapping)).body as readonly ImportSource[];
    expect((await post('/imports/look', file)).body).toMatchObject({
      subject: 'pieces',
      readings: { pieces: { source } },
    });
    expect((await post('/imports/pieces/preview', file)).body).toMatchObject({ source: 'stall', counts: { added: 1 } });
    expect((await json(`/import-sources/${String(source?.id)}/remove`, {})).body).toEqual([]);
    expect((await json(`/import-sources/${String(source?.id)}/remove`, {})).status).toBe(404);
  });

  it('an unknown subject or route answers in words', async () => {
    expect(await post('/imports/people/preview', PIECES)).toMatchObject({ status: 404 });
    const nothing = await fetch(`${server.url}/api/nothing`);
    expect(nothing.status).toBe(404);
    expect((await nothing.json()) as OfficeError).toMatchObject({ error: 'not-found' });
  });
});

it('the export is a table even when nothing is finished', async () => {
  const response = await fetch(`${server.url}/api/exports/parcels.csv`);
  expect(response.headers.get('content-disposition')).toContain('parcels.csv');
  expect(readParcelsCsv(await response.text())).toEqual([]);
});
