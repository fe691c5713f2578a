import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ImportPreview, OrderPage, OrderQuestion, OrderRow } from '#shared/wire/office.ts';
import type { SearchAnswer } from '#shared/wire/search.ts';
import { OfficeRequestError } from '#station-ui/office/api.ts';
import type { OfficeApi } from '#station-ui/office/api.ts';
import type { ImportLook } from '#shared/wire/imports.ts';
import type { Import } from '#station-ui/office/import.ts';
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
  source: null,
  columns: [
    { header: 'Order no', field: 'order' },
    { header: 'Gift', field: null },
  ],
  added: [{ line: 2, id: '9001', summary: 'Zoë Quill, 1 piece', changes: [] }],
  changed: [{ line: 3, id: '1047', summary: '', changes: [{ field: 'note', before: '', after: 'no plastic' }] }],
  unchanged: 12,
  counts: { added: 1, changed: 1, refused: 2 },
  refused: [
    { line: 4, column: 'postcode', expected: 'five digits', found: '5580' },
    { line: 5, column: null, expected: '11 fields', found: '' },
  ],
};

const NO_READING = { source: null, fields: {}, missing: [] };
const LOOK: ImportLook = {
  subject: 'orders',
  problem: null,
  encoding: 'windows-1252',
  delimiter: ';',
  header: ['Order no', 'Gift'],
  samples: [['9001'], []],
  readings: { pieces: NO_READING, orders: NO_READING },
};

const pageOf = (all: readonly OrderRow[], { from, count }: OrderQuestion): OrderPage => ({
  rows: all.slice(from, from + count),
  from,
  matching: all.length,
  more: false,
  all: all.length,
  counts: { open: 2, packing: 0, 'set-aside': 0, packed: 1, cancelled: 0, combined: 0 },
  timeZone: 'America/Chicago',
});

const FOUND: SearchAnswer = {
  text: 'per',
  groups: [
    {
      kind: 'order',
      more: true,
      hits: [{ kind: 'order', code: 'OT 9/1', words: 'Inés Pérez', order: 'OT 9/1', state: 'packed', orders: 1 }],
    },
    {
      kind: 'buyer',
      more: false,
      hits: [{ kind: 'buyer', code: '', words: 'Inés Pérez', order: '9', state: 'open', orders: 3 }],
    },
  ],
};

let office: Office;
let applied: string[];
let previewed: string[];
let rows: readonly OrderRow[];
let questions: OrderQuestion[];
let searched: string[];
let fails: OfficeRequestError | null;

beforeEach(async () => {
  localStorage.clear();
  applied = [];
  previewed = [];
  questions = [];
  searched = [];
  location.hash = '';
  fails = null;
  rows = [
    row('10'),
    row('9', { state: 'packed', buyer: 'Inés Pérez' }),
    row('101', { shipBy: '2001-01-01T10:00:00Z' }),
  ];
  const api: OfficeApi = {
    orders: (question) => {
      questions.push(question);
      return Promise.resolve(pageOf(rows, question));
    },
    order: () => Promise.reject(new OfficeRequestError('unknown-order', 'There is no order "1".')),
    search: (text) => {
      searched.push(text);
      return Promise.resolve(FOUND);
    },
    benches: () => Promise.resolve([{ id: 'bench 1', name: 'Bench 1' }]),
    firstRunOpen: () => Promise.resolve(false),
    attention: () => Promise.resolve({ overdue: 2, short: 0, labels: 1, backup: false }),
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
  const importing = one(office, 'bf-import') as Import;
  importing.imports = {
    look: () => Promise.resolve(LOOK),
    sources: () => Promise.resolve([]),
    saveSource: () => Promise.resolve([]),
    removeSource: () => Promise.resolve([]),
  };
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
  it('are asked for by the time they leave, a hundred at a time; the late ones are marked with a word', () => {
    expect(questions[0]).toEqual({ text: '', state: null, by: 'shipBy', descending: false, from: 0, count: 100 });
    expect(orders()).toEqual(['10', '9', '101']);
    expect(text(one(office, 'tr[data-order="101"]'))).toContain('late');
    expect(text(one(office, 'tr[data-order="10"]'))).not.toContain('late');
  });

  it('have their times on the clock of the shop, and names instead of ids', async () => {
    rows = [row('7', { shipBy: '2099-11-25T22:30:00Z', container: { en: 'Pouch', es: 'Bolsa' } })];
    one(office, '.heading button')?.click();
    await settle();
    expect(text(one(office, 'tr[data-order="7"]'))).toContain('16:30');
    expect(text(one(office, 'tr[data-order="7"]'))).toContain('Pouch');
  });

  it('are put in order by a heading, which says so to a screen reader', async () => {
    one(office, '[data-sort=id]')?.click();
    await settle();
    expect(questions.at(-1)).toMatchObject({ by: 'id', descending: false });
    one(office, '[data-sort=id]')?.click();
    await settle();
    expect(questions.at(-1)).toMatchObject({ by: 'id', descending: true });
    expect(one(office, 'th[aria-sort=descending]')).not.toBeNull();
    expect(one(office, '[data-sort=container]')).toBeNull();
  });

  it('are narrowed as one types', async () => {
    const field = one(office, '.tools input') as HTMLInputElement;
    field.value = 'perez';
    field.dispatchEvent(new Event('input'));
    await settle();
    expect(questions.at(-1)).toMatchObject({ text: 'perez', from: 0 });
  });

  it('beyond a hundred are turned by pages, and only those of one are drawn', async () => {
    rows = Array.from({ length: 250 }, (_, index) => row(String(index)));
    one(office, '.heading button')?.click();
    await settle();
    expect(orders()).toHaveLength(100);
    expect(one(office, '[data-page=before]')?.hasAttribute('disabled')).toBe(true);
    for (const from of [100, 200]) {
      one(office, '[data-page=next]')?.click();
      await settle();
      expect(questions.at(-1)).toMatchObject({ from });
    }
    expect(orders()).toHaveLength(50);
    expect(text(one(office, '.turning p'))).toBe('201 to 250 of 250');
    expect(one(office, '[data-page=next]')?.hasAttribute('disabled')).toBe(true);
  });

  it('can be walked with the arrow keys: one row takes the focus at a time', async () => {
    const standing = (): (string | null)[] =>
      all(office, 'tr[tabindex="0"]').map((each) => each.getAttribute('data-order'));
    expect(standing()).toEqual(['10']);
    one(office, 'tbody')?.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowDown', bubbles: true }));
    await settle();
    expect(standing()).toEqual(['9']);
    one(office, 'tbody')?.dispatchEvent(new KeyboardEvent('keydown', { key: 'End', bubbles: true }));
    await settle();
    expect(standing()).toEqual(['101']);
  });
});

describe('the search', () => {
  const type = async (value: string) => {
    const field = one(office, 'search input') as HTMLInputElement;
    field.value = value;
    field.dispatchEvent(new Event('input'));
    await new Promise((resolve) => setTimeout(resolve, 150));
    await settle();
  };
  it('is on every page, lists by kind, and leads to the order', async () => {
    for (const part of ['import', 'orders']) {
      location.hash = `#${part}`;
      await settle();
      expect(one(office, 'bf-search')).not.toBeNull();
    }
    await type('per');
    expect(searched).toEqual(['per']);
    expect(all(office, '[data-found] h2').map(text)).toEqual(['Orders', 'Buyers']);
    expect(all(office, 'a.hit').map((link) => link.getAttribute('href'))).toEqual([
      '#order/OT%209%2F1',
      '#orders/In%C3%A9s%20P%C3%A9rez',
    ]);
    expect(all(office, 'mark').map(text)).toEqual(['Pér', 'Pér']);
  });
  it('opens a page of the order, and the orders of somebody', async () => {
    location.hash = '#order/OT%209%2F1';
    window.dispatchEvent(new Event('hashchange'));
    await settle();
    expect(text(one(office, 'bf-order'))).toContain('Order OT 9/1');
    expect(text(one(office, 'bf-order [role=alert]') ?? one(office, 'bf-order'))).toContain('There is no order "1".');
    location.hash = '#orders/In%C3%A9s';
    window.dispatchEvent(new Event('hashchange'));
    await settle();
    expect(one(office, 'bf-order')).toBeNull();
    expect(questions.at(-1)).toMatchObject({ text: 'Inés' });
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
    expect(text(one(office, '[data-table=columns]'))).toBe('Order no → order number Gift → not used');
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
