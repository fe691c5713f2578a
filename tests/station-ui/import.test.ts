import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { SourceMapping } from '#shared/imports/source.ts';
import type { ImportLook } from '#shared/wire/imports.ts';
import type { ImportPreview, ImportSubject } from '#shared/wire/office.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { OfficeRequestError } from '#station-ui/office/api.ts';
import '#station-ui/office/import.ts';
import type { Import } from '#station-ui/office/import.ts';
import { all, one, text } from './look.ts';

const READING = { source: null, fields: {}, missing: [] };

function look(subject: ImportSubject | null): ImportLook {
  return {
    subject,
    problem: subject === null ? 'line 1: expected the columns of pieces or of orders; found the columns Nr, Was' : null,
    encoding: 'utf-8',
    delimiter: ',',
    header: ['Nr', 'Was'],
    samples: [['S-1', 'S-2'], ['tee']],
    readings: { pieces: { ...READING, missing: ['sku', 'kind'] }, orders: READING },
  };
}

const preview = (subject: ImportSubject, file: string, added: number): ImportPreview => ({
  id: `held-${file}`,
  subject,
  file,
  encoding: 'utf-8',
  delimiter: ',',
  columns: [],
  source: null,
  added: [],
  changed: [],
  unchanged: 0,
  refused: [{ line: 3, column: 'PLZ', expected: 'a postcode', found: 'an empty cell' }],
  counts: { added, changed: 0, refused: 1 },
});

let page: Import;
let done: string[];
let kept: SourceMapping[];
let broken: string | null;

beforeEach(async () => {
  done = [];
  kept = [];
  broken = null;
  page = document.createElement('bf-import');
  page.words = wordsOf('en').office;
  page.api = {
    preview: (subject, file, _progress, ...[after = []]) => {
      done.push(`preview ${subject} ${file.name}${after.length === 0 ? '' : ` after ${after.join(' ')}`}`);
      if (file.name === broken)
        return Promise.reject(new OfficeRequestError('not-a-table', 'expected a CSV table; this is a PDF document'));
      return Promise.resolve(preview(subject, file.name, 2));
    },
    apply: (id) => {
      done.push(`store ${id}`);
      if (id === `held-${String(broken)}`) return Promise.reject(new OfficeRequestError('no-answer', ''));
      return Promise.resolve({ added: 2, changed: 0, unchanged: 0, refused: 1 });
    },
  };
  page.imports = {
    look: (file) => {
      if (file.name.startsWith('odd') && kept.length === 0) return Promise.resolve(look(null));
      return Promise.resolve(look(file.name.startsWith('orders') ? 'orders' : 'pieces'));
    },
    sources: () => Promise.resolve([]),
    saveSource: (mapping) => {
      kept.push(mapping);
      return Promise.resolve([]);
    },
    removeSource: () => Promise.resolve([]),
  };
  document.body.append(page);
  await settle();
});

afterEach(() => page.remove());

async function settle(): Promise<void> {
  for (let turn = 0; turn < 12; turn += 1) await new Promise((resolve) => setTimeout(resolve));
}

async function choose(...names: readonly string[]): Promise<void> {
  const field = one(page, 'input[type=file]');
  Object.defineProperty(field, 'files', { configurable: true, value: names.map((name) => new File(['x'], name)) });
  field?.dispatchEvent(new Event('change'));
  await settle();
}

const steps = () =>
  all(page, 'tr[data-file]').map((row) => `${row.dataset['file'] ?? ''} ${row.dataset['step'] ?? ''}`);

describe('several files at once', () => {
  it('are judged one by one, pieces before orders however they were chosen, and stored with one answer', async () => {
    await choose('orders.csv', 'rack.csv', 'shelf.csv');
    expect(done).toEqual([
      'preview pieces rack.csv',
      'preview pieces shelf.csv after held-rack.csv',
      'preview orders orders.csv after held-rack.csv held-shelf.csv',
    ]);
    expect(steps()).toEqual(['rack.csv preview', 'shelf.csv preview', 'orders.csv preview']);
    expect(text(one(page, '[data-import=store]'))).toBe('Store these 6 of 3 files');
    done = [];
    one(page, '[data-import=store]')?.click();
    await settle();
    expect(done).toEqual(['store held-rack.csv', 'store held-shelf.csv', 'store held-orders.csv']);
    expect(all(page, '[data-import=stored]')).toHaveLength(3);
    // What was left out is still to be read, so that it can be put right in the file.
    expect(all(page, '[data-table=refused]')).toHaveLength(3);
    expect(all(page, '[data-table=added]')).toHaveLength(0);
    expect(one(page, '[data-import=store]')).toBeNull();
  });

  it('do not stop for a bad one among them', async () => {
    broken = 'rack.csv';
    await choose('orders.csv', 'rack.csv');
    expect(steps()).toEqual(['rack.csv failed', 'orders.csv preview']);
    expect(text(one(page, 'tr[data-file="rack.csv"] [role=alert]'))).toContain('this is a PDF document');
    page.language = 'es';
    page.words = wordsOf('es').office;
    await settle();
    expect(text(one(page, 'tr[data-file="rack.csv"] [role=alert]'))).toContain('esto es un documento PDF');
    expect(all(page, '[data-table=refused] tbody tr').map(text)).toEqual(['3 PLZ un código postal una celda vacía']);
  });
});

describe('a file whose columns nobody knows', () => {
  it('is mapped by hand, kept under a name, and then looked through', async () => {
    await choose('odd.csv');
    expect(text(one(page, '[role=alert]'))).toContain('expected the columns of pieces or of orders');
    expect(done).toEqual([]);
    one(page, '[data-import=map]')?.click();
    await settle();
    const pick = async (selector: string, value: string) => {
      const field = one(page, selector) as HTMLSelectElement | HTMLInputElement;
      field.value = value;
      field.dispatchEvent(new Event(selector.includes('input') ? 'input' : 'change'));
      await settle();
    };
    await pick('select[name=subject]', 'pieces');
    expect(text(one(page, '[data-missing]'))).toBe('Still without a column: SKU, kind of garment.');
    await pick('tr[data-field=sku] select', '0');
    expect(text(one(page, 'tr[data-field=sku] .samples'))).toBe('S-1 · S-2');
    await pick('tr[data-field=kind] select', 'constant');
    await pick('tr[data-field=kind] input', 't-shirt');
    await pick('tr[data-field=mass] select', '1');
    await pick('tr[data-field=mass] select + select', 'g');
    // The page around it is drawn anew, as it is while other files are looked through; what was chosen stays.
    page.language = 'es';
    await settle();
    page.language = 'en';
    await settle();
    const save = one(page, '[data-mapping=save]') as HTMLButtonElement;
    expect(save.disabled).toBe(true);
    await pick('input[name=source-name]', 'market stall');
    await pick('select[name=days]', 'DD/MM/YYYY');
    one(page, 'form[data-mapping]')?.dispatchEvent(new Event('submit'));
    await settle();
    expect(kept).toEqual([
      {
        name: 'market stall',
        subject: 'pieces',
        header: ['Nr', 'Was'],
        fields: { sku: { column: 0 }, kind: { constant: 't-shirt' }, mass: { column: 1, unit: 'g' } },
        decimalMark: null,
        days: 'DD/MM/YYYY',
      },
    ]);
    expect(done).toEqual(['preview pieces odd.csv']);
    expect(one(page, '[data-import=store]')).not.toBeNull();
  });
});
