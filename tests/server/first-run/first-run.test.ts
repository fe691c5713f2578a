import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkFolder } from '#config/load.ts';
import { beginShop } from '#server/first-run/new-shop.ts';
import { makeFolder } from '#server/make-folder.ts';
import { readPlaces, readSettings } from '#server/settings.ts';
import { systemErrorLine } from '#server/system-error-line.ts';
import { MEASURES, type FirstRunView, type ShopFacts } from '#shared/wire/first-run.ts';
import type { OfficeError } from '#shared/wire/office.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const folders = temporaryFolder('first-run');
afterAll(() => folders.remove());

describe('a new shop', () => {
  it.each(MEASURES)('in %s is valid, with comments and nothing of the demo’s own', (measures) => {
    const folder = join(folders.path, measures);
    beginShop(folder, CONFIG, measures);
    expect(checkFolder(folder)).toEqual([]);
    const all = readdirSync(folder)
      .filter((name) => name.endsWith('.yaml'))
      .map((name) => readFileSync(join(folder, name), 'utf8'));
    for (const text of all) {
      expect(text).toMatch(/^#/);
      expect(text).not.toMatch(/Oddment|Ovillo|merrow|varnholm|Maren|Berta/);
    }
  });

  it('is never begun over something that is there', () => {
    const folder = join(folders.path, 'taken');
    mkdirSync(folder);
    writeFileSync(join(folder, 'notes.txt'), 'mine');
    expect(() => beginShop(folder, CONFIG)).toThrow(/expected an empty folder/);
    expect(readdirSync(folder)).toEqual(['notes.txt']);
  });

  it('keeps what it packs in its own folder, the demo beside the product', () => {
    const root = '/opt/benchfold';
    expect(readSettings({ BENCHFOLD_CONFIG: '/home/ida/shop' }, root).data).toBe('/home/ida/shop/data');
    expect(readSettings({}, root).data).toBe('/opt/benchfold/data');
    expect(readSettings({ BENCHFOLD_CONFIG: `${root}/config/demo-metric` }, root).data).toBe('/opt/benchfold/data');
    expect(readSettings({ BENCHFOLD_CONFIG: '/home/ida/shop', BENCHFOLD_DATA: '/d' }, root).data).toBe('/d');
    // The command line looks in the same places, beside where it was called.
    const beside = { config: '/home/ida/shop', data: '/home/ida/shop/data', database: null };
    expect(readPlaces({ BENCHFOLD_CONFIG: 'shop' }, root, '/home/ida')).toEqual(beside);
  });

  it('is begun beside the log of a server that found no shop, and never beside a store', () => {
    const data = join(folders.path, 'begun', 'data');
    makeFolder(data);
    writeFileSync(join(data, 'server.log'), '');
    writeFileSync(join(data, 'benchfold.db'), '');
    expect(() => beginShop(dirname(data), CONFIG)).toThrow('expected an empty folder');
    rmSync(join(data, 'benchfold.db'));
    beginShop(dirname(data), CONFIG);
    expect(checkFolder(dirname(data))).toEqual([]);
  });

  it('takes an empty variable as not set', () => {
    const names = ['CONFIG', 'DATA', 'HOST', 'BENCHES', 'ADDRESS', 'NAMES', 'TRUST_PORT', 'LOG'];
    const environment = ['PORT', 'DATABASE_URL', ...names.map((name) => `BENCHFOLD_${name}`)];
    for (const empty of ['', ' ']) {
      const said = Object.fromEntries(environment.map((name) => [name, empty]));
      expect(readSettings(said, '/opt/benchfold')).toEqual(readSettings({}, '/opt/benchfold'));
    }
  });

  it('is begun nowhere below what takes no folder, and says so at once', () => {
    for (const place of ['/proc/shop', '/proc/shop/of/mine']) {
      expect(() => beginShop(place, CONFIG)).toThrow(expect.objectContaining({ path: '/proc/shop' }) as Error);
    }
    const file = join(folders.path, 'file');
    writeFileSync(file, '');
    const told = (place: string) => {
      try {
        makeFolder(place);
        return 'made';
      } catch (error) {
        return systemErrorLine(error);
      }
    };
    expect(told('/proc/shop')).toBe('/proc/shop: the system lets no folder be made there');
    expect(told(file)).toBe(`${file}: expected a folder, found a file`);
    expect(told(join(file, 'shop'))).toBe(`${join(file, 'shop')}: expected a folder, found a file`);
    expect([told(join(folders.path, 'a', 'b', 'c')), told(join(folders.path, 'a', 'b'))]).toEqual(['made', 'made']);
  });
});

describe('the guide', () => {
  let at = 0;
  let folder = '';
  let server: Awaited<ReturnType<typeof serverOn>>;

  beforeEach(async () => {
    at += 1;
    folder = join(folders.path, `shop-${String(at)}`);
    mkdirSync(folder);
    server = await serverOn(folder, `${folder}-data`);
  });
  afterEach(() => server.stop());

  const view = async () => (await (await fetch(`${server.url}/api/first-run`)).json()) as FirstRunView;
  const post = async <Body = FirstRunView>(path: string, body: unknown = {}) => {
    const response = await fetch(`${server.url}/api/first-run/${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    return { status: response.status, body: (await response.json()) as Body };
  };
  const text = (name: string) => readFileSync(join(folder, name), 'utf8');

  const FACTS: ShopFacts = {
    name: 'Nettle & Knot',
    measures: 'centimetres',
    currency: 'EUR',
    timeZone: 'Europe/Madrid',
    language: 'es',
    postcode: '0412',
    country: 'ES',
    days: 'day-first',
    decimals: 'comma',
    address: ['Nettle & Knot', 'Calle 1'],
  };

  it('opens on an empty folder, is kept over a restart, step by step, and put away', async () => {
    expect(await view()).toMatchObject({ open: true, steps: { shop: 'open', import: 'open' }, counts: { orders: 0 } });
    await post('steps/devices', { state: 'skipped' });
    expect((await post('steps/nonsense', { state: 'done' })).status).toBe(404);
    await server.stop();
    server = await serverOn(folder, `${folder}-data`);
    expect(await view()).toMatchObject({ open: true, steps: { shop: 'open', devices: 'skipped' } });
    expect((await post('put-away')).body.open).toBe(false);
    expect(checkFolder(folder)).toEqual([]);
  });

  it('writes the shop with its comments, and its untouched files go over to its measures', async () => {
    const { body } = await post('shop', FACTS);
    expect(body).toMatchObject({ shop: FACTS, steps: { shop: 'done' } });
    expect(body.containers.every(({ size }) => size.includes('cm'))).toBe(true);
    expect(text('shop.yaml')).toContain('# Where parcels leave from');
    expect(text('shop.yaml')).toMatch(/postcode: ["']0412["']/);
    expect(text('devices.yaml')).toContain('division: 1 g');
    // 04/12/2026 of a Spanish spreadsheet must never be the 12th of April.
    expect(text('imports.yaml')).toMatch(/^days: \[ DD\/MM\/YYYY/m);
    expect(text('imports.yaml')).toMatch(/^decimalMark: comma/m);
    expect(checkFolder(folder)).toEqual([]);
  });

  it('leaves what somebody has changed, whatever the measures', async () => {
    writeFileSync(join(folder, 'devices.yaml'), text('devices.yaml').replace('Bench 1', 'The long table'));
    await post('shop', FACTS);
    expect(text('devices.yaml')).toContain('The long table');
    expect(text('devices.yaml')).toContain('0.1 oz');
  });

  it('refuses what the files’ own rules refuse, names the place, and writes nothing', async () => {
    const before = text('shop.yaml');
    const { status, body } = await post<OfficeError>('shop', { ...FACTS, currency: 'euros', timeZone: 'Atlantis' });
    expect(status).toBe(422);
    expect(body.problems?.map(({ file, path }) => `${file} ${path}`)).toEqual(
      expect.arrayContaining(['shop.yaml currency', 'shop.yaml timeZone']),
    );
    expect(text('shop.yaml')).toBe(before);
    const none = await post<OfficeError>('containers', {
      keep: [],
      add: [
        { name: 'Box', type: 'carton', width: '6 ells', length: '8 in', depth: '4 in', mass: '110 g', cost: '0.46' },
      ],
    });
    expect(none.status).toBe(422);
    expect(none.body.problems?.[0]?.path).toContain('containers.box');
  });

  it('takes sizes, masses and costs as they are typed: with a decimal comma, and without the shop’s own unit', async () => {
    await post('shop', FACTS);
    const bag = { name: 'Bolsa', type: 'pouch', width: '27,5', length: '36', depth: '', mass: '19,5', cost: '0,21 €' };
    const { status, body } = await post('containers', { keep: [], add: [bag] });
    expect(status).toBe(200);
    expect(body.containers).toMatchObject([{ size: '27.5 cm × 36.0 cm', mass: '19.5 g', cost: '€0.21' }]);
  });

  it('fills the cupboard, names the people, and lets go of the stand-in prices only for others', async () => {
    const { containers } = await view();
    const keep = containers.slice(0, 2).map(({ id }) => id);
    const add = [
      {
        name: 'Kraft bag, größe 9 × 12',
        type: 'pouch',
        width: '9 in',
        length: '12 in',
        depth: '',
        mass: '18 g',
        cost: '0.21',
      },
    ];
    const filled = (await post('containers', { keep, add })).body.containers;
    expect(filled.map(({ id }) => id)).toEqual([...keep, 'kraft-bag-grosse-9-12']);
    expect(text('containers.yaml')).toContain('# 0.1804 m2');

    const people = [
      { name: 'Íñigo', role: 'owner', language: 'es' },
      { name: 'Íñigo', role: 'packer', language: 'en' },
    ];
    const named = (await post('people', { people })).body.people;
    // A badge signs its person in, so nobody can tell it from the name.
    expect(named.map(({ id, badge }) => [id, badge])).toEqual([
      ['inigo', expect.stringMatching(/^STAFF-INIGO-[A-Z2-9]{6}$/)],
      ['inigo-2', expect.stringMatching(/^STAFF-INIGO-2-[A-Z2-9]{6}$/)],
    ]);
    expect(new Set(named.map(({ badge }) => badge.slice(-6))).size).toBe(2);

    expect((await post('prices/drop-stand-in')).status).toBe(409);
    writeFileSync(
      join(folder, 'rate-cards/own.yaml'),
      text('rate-cards/sample.yaml').replaceAll('sample', 'own').replaceAll('Stand-in', 'Own'),
    );
    const { body } = await post('prices/drop-stand-in');
    expect(body.cards).toEqual([
      { file: 'rate-cards/own.yaml', name: { en: 'Own prices', es: 'Precios provisionales' }, sample: false },
    ]);
    expect(checkFolder(folder)).toEqual([]);
  });
});
