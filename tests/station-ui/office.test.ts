import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ImportPreview, OrderRow } from '#shared/wire/office.ts';
import { OfficeRequestError } from '#station-ui/office/api.ts';
import type { OfficeApi } from '#station-ui/office/api.ts';
import '#station-ui/office/office.ts';
import type { Office } from '#station-ui/office/office.ts';
import { all, one, text } from './look.ts';

const row = (id: string, change: Partial<OrderRow> = {}): OrderRow => ({
  id,
  buyer: 'M. Aldous',
  pieces: 1,
  shipBy: '2099-11-25T16:30:00Z',
  state: 'open',
  bench: null,
  reason: null,
  container: null,
  service: null,
  ...change,
});

const PREVIEW: ImportPreview = {
  id: 'preview-1',
  subject: 'orders',
  file: 'orders.csv',
  encoding: 'windows-1252',
  delimiter: ';',
  columns: [
    { header: 'Order no', field: 'order' },
    { header: 'Gift', field: null },
  ],
  added: [{ line: 2, id: '9001', summary: 'Zoë Quill, 1 piece', changes: [] }],
  changed: [{ line: 3, id: '1047', summary: '', changes: [{ field: 'note', before: '', after: 'no plastic' }] }],
  unchanged: 12,
  refused: [
    { line: 4, column: 'postcode', expected: 'five digits', found: '5580' },
    { line: 5, column: null, expected: '11 fields', found: '' },
  ],
};

let office: Office;
let applied: string[];
let previewed: string[];
let rows: readonly OrderRow[];
let fails: OfficeRequestError | null;

beforeEach(async () => {
  localStorage.clear();
  applied = [];
  previewed = [];
  fails = null;
  rows = [
    row('10'),
    row('9', { state: 'packed', buyer: 'Inés Pérez' }),
    row('101', { shipBy: '2001-01-01T10:00:00Z' }),
  ];
  const api: OfficeApi = {
    orders: () => Promise.resolve(rows),
    benches: () => Promise.resolve([{ id: 'bench 1', name: 'Bench 1' }]),
    attention: () => Promise.resolve({ overdue: 2, short: 0 }),
    preview: (subject, file) => {
      previewed.push(`${subject}:${file.name}`);
      return fails === null ? Promise.resolve(PREVIEW) : Promise.reject(fails);
    },
    apply: (id) => {
      applied.push(id);
      rows = [...rows, row('9001')];
      return Promise.resolve({ added: 1, changed: 1, unchanged: 12, refused: 2 });
    },
  };
  office = document.createElement('bf-office');
  office.api = api;
  document.body.append(office);
  await settle();
});

afterEach(() => {
  office.remove();
});

async function settle(): Promise<void> {
  for (let turn = 0; turn < 6; turn++) {
    await office.updateComplete;
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
}

async function choose(name: string): Promise<void> {
  const field = one(office, 'input[type=file]');
  Object.defineProperty(field, 'files', { configurable: true, value: [new File(['x'], name)] });
  field?.dispatchEvent(new Event('change'));
  await settle();
}

const orders = (): (string | null)[] => all(office, 'tr[data-order]').map((each) => each.getAttribute('data-order'));

describe('the orders', () => {
  it('are shown by the time they leave, the late ones marked with a word', () => {
    expect(orders()).toEqual(['101', '10', '9']);
    expect(text(one(office, 'tr[data-order="101"]'))).toContain('late');
    expect(text(one(office, 'tr[data-order="10"]'))).not.toContain('late');
  });

  it('are sorted by a heading, and say so to a screen reader', async () => {
    one(office, '[data-sort=id]')?.click();
    await settle();
    expect(orders()).toEqual(['9', '10', '101']);
    one(office, '[data-sort=id]')?.click();
    await settle();
    expect(orders()).toEqual(['101', '10', '9']);
    expect(one(office, 'th[aria-sort=descending]')).not.toBeNull();
  });

  it('are filtered as one types', async () => {
    const field = one(office, 'input[type=search]') as HTMLInputElement;
    field.value = 'perez';
    field.dispatchEvent(new Event('input'));
    await settle();
    expect(orders()).toEqual(['9']);
    expect(text(office)).toContain('1 of 3 orders');
  });

  it('can be walked with the arrow keys: one row takes the focus at a time', async () => {
    const standing = (): (string | null)[] =>
      all(office, 'tr[tabindex="0"]').map((each) => each.getAttribute('data-order'));
    expect(standing()).toEqual(['101']);
    one(office, 'tbody')?.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowDown', bubbles: true }));
    await settle();
    expect(standing()).toEqual(['10']);
    one(office, 'tbody')?.dispatchEvent(new KeyboardEvent('keydown', { key: 'End', bubbles: true }));
    await settle();
    expect(standing()).toEqual(['9']);
  });
});

describe('an import', () => {
  it('is shown before anything is stored: each refused line with what was expected and what was there', async () => {
    await choose('orders.csv');
    expect(previewed).toEqual(['orders:orders.csv']);
    expect(applied).toEqual([]);
    expect(all(office, '[data-table=refused] tbody tr').map(text)).toEqual([
      '4 postcode five digits 5580',
      '5 whole line 11 fields nothing',
    ]);
    expect(text(one(office, '[data-table=changed] tbody'))).toBe('3 1047 note nothing no plastic');
    expect(text(one(office, '[data-table=added] tbody'))).toBe('2 9001 Zoë Quill, 1 piece');
    expect(text(one(office, '[data-table=columns]'))).toBe('Order no → order Gift → not used');
    expect(text(one(office, '[data-import=store]'))).toBe('Store these 2');
  });

  it('is stored when asked; the counts are said and the orders read again', async () => {
    await choose('orders.csv');
    one(office, '[data-import=store]')?.click();
    await settle();
    expect(applied).toEqual(['preview-1']);
    expect(text(one(office, '[data-import=stored]'))).toBe('Stored: 1 new, 1 changed. 12 unchanged, 2 refused.');
    expect(orders()).toContain('9001');
  });

  it('that cannot be read says why and stores nothing', async () => {
    fails = new OfficeRequestError('no-header', 'line 1: expected a header');
    await choose('orders.csv');
    expect(text(one(office, 'bf-import'))).toContain('Not done: line 1: expected a header');
    expect(one(office, '[data-import=store]')).toBeNull();
  });
});

it('leads to each bench and to the export, in either language', async () => {
  expect(one(office, '[data-bench]')?.getAttribute('href')).toBe('/bench/bench%201');
  expect(one(office, '[data-export=parcels]')?.getAttribute('href')).toBe('/api/exports/parcels.csv');
  one(office, '[data-switch=language]')?.click();
  await settle();
  expect(text(one(office, 'h1'))).toBe('Oficina');
  expect(document.documentElement.lang).toBe('es');
});
