import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defuse, restore } from '#shared/words/formula-cells.ts';
import { PARCEL_COLUMNS, parcelsCsv, readParcelsCsv, type ParcelRow } from '#server/office/exports/parcels-csv.ts';
import { anySign } from '#tests/support/any-sign.ts';

const blank = Object.fromEntries(PARCEL_COLUMNS.map((column) => [column, ''])) as ParcelRow;

/** As a spreadsheet sees it: cells split by the rules of RFC 4180, written out by hand to be no mirror of the writer. */
function cellsOf(csv: string): string[][] {
  const records: string[][] = [[]];
  let cell = '';
  let quoted = false;
  for (let index = 0; index < csv.length; index += 1) {
    const sign = csv[index] ?? '';
    if (quoted) {
      if (sign !== '"') cell += sign;
      else if (csv[index + 1] === '"') {
        cell += '"';
        index += 1;
      } else quoted = false;
    } else if (sign === '"') quoted = true;
    else if (sign === ',') {
      records.at(-1)?.push(cell);
      cell = '';
    } else if (sign === '\r' && csv[index + 1] === '\n') {
      records.at(-1)?.push(cell);
      cell = '';
      records.push([]);
      index += 1;
    } else cell += sign;
  }
  return records.slice(0, -1);
}

describe('the export of parcels', () => {
  it('is UTF-8 with a mark, CRLF and a header', () => {
    const csv = parcelsCsv([{ ...blank, order: '4101', buyer: 'Ñandú Øst', price: '4.10', margin: '-0.3' }]);
    expect(csv.startsWith('\ufefforder,parcel,parcels,buyer,')).toBe(true);
    expect(csv.endsWith('\r\n')).toBe(true);
    expect(csv.slice(1).split('\r\n')).toHaveLength(3);
    expect(csv).toContain(',-0.3,');
  });

  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '\n=1', '  =1', '＝1', '＋1', '－1', '＠1', '\u00a0=1'])(
    'leaves no cell that a spreadsheet would run: %j',
    (text) => {
      const cell = cellsOf(parcelsCsv([{ ...blank, buyer: text }]))[1]?.[3] ?? '';
      expect(cell).toBe(`'${text}`);
    },
  );

  it('gives every value back, whatever is in it', () => {
    const row = fc.record(
      Object.fromEntries(
        PARCEL_COLUMNS.map((column) => [
          column,
          fc.oneof(
            fc.string({ unit: anySign }),
            fc.string({ unit: fc.constantFrom(...Array.from(`=+-@'",;\t\r\n＝ a1.`)) }),
          ),
        ]),
      ),
    );
    fc.assert(
      fc.property(fc.array(row, { maxLength: 4 }), (rows) => {
        expect(readParcelsCsv(parcelsCsv(rows as unknown as ParcelRow[]))).toEqual(rows);
      }),
    );
  });

  it('never lets a text start with a sign that runs', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...Array.from(`=+-@'\t\r\n＝＋－＠ \u00a0ab1`)) }), (text) => {
        expect(restore(defuse(text))).toBe(text);
        expect(defuse(text)).not.toMatch(/^[\s]*[=+\-@＝＋－＠]|^[\t\r\n]/u);
      }),
    );
  });

  it('survives its own bytes', () => {
    const rows = [{ ...blank, buyer: 'Zoë “Q” 漢字 🧶', pieces: 'OT-1 OT-2' }];
    const bytes = new TextEncoder().encode(parcelsCsv(rows));
    expect([...bytes.subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    expect(readParcelsCsv(new TextDecoder().decode(bytes))).toEqual(rows);
  });
});
