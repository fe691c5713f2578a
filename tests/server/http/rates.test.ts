import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Running } from '#server/server.ts';
import { saveParcel, type FinishedParcel } from '#server/store/parcels.ts';
import { parseMass } from '#shared/units/mass.ts';
import type {
  PriceDifference,
  PriceTable,
  RateApplied,
  RateImport,
  RatePreview,
  RatesOverview,
  WhatIf,
} from '#shared/wire/rates.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const NOW = Date.parse('2026-11-25T18:00:00Z');
const data = temporaryFolder('rates');
let config: string;
let running: Running & { readonly url: string };

beforeAll(async () => {
  config = copyOfConfig();
  running = await serverOn(config, data.path, { now: () => NOW });
});
afterAll(async () => {
  await running.stop();
  data.remove();
  removeConfigFolders();
});

async function ask<Answer>(path: string, body?: unknown): Promise<{ status: number; body: Answer }> {
  const response = await fetch(`${running.url}/api/rates/${path}`, {
    ...(body === undefined
      ? {}
      : { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
  });
  return { status: response.status, body: (await response.json()) as Answer };
}

const refused = (path: string, body?: unknown) => ask<{ error: string; message: string }>(path, body);

const LIST = [
  'Light parcel\t\t\t\t\t\t\t\t',
  'Not over\t1\t2\t3\t4\t5\t6\t7\t8',
  '4 oz\t$3.65\t$3.75\t$3.85\t$3.95\t$4.00\t$4.10\t$4.20\t$4.30',
  '8 oz\t$4.15\t$4.25\t$4.40\t$4.50\t$4.65\t$4.75\t$4.90\t$5.00',
  '12 oz\t$4.80\t$4.95\t$5.10\t$5.25\t$5.40\t$5.60\t$5.75\t$5.90',
  '16 oz\t$5.55\t$5.75\t$5.95\t$6.10\t$6.30\t$6.50\t$6.70\t$1,006.85',
].join('\n');

const list = (changes: Partial<RateImport> = {}): RateImport => ({
  text: LIST,
  carrier: 'merrow-post',
  cardName: '',
  service: 'light-parcel',
  serviceName: '',
  from: '2027-01-17',
  massUnit: null,
  decimal: '.',
  zones: { by: 'as-before' },
  carryOver: true,
  acceptWarnings: false,
  replace: false,
  ...changes,
});

const parcel = (day: string) => ({
  day,
  mass: '8 oz',
  size: '10x8x2in',
  to: { postcode: '60614', country: 'US' },
  language: 'en',
});
const priceOn = async (day: string, service = 'light-parcel') =>
  (await ask<WhatIf>('what-if', parcel(day))).body.offers.find((offer) => offer.service === service)?.price.minor;

describe('what is in force', () => {
  test('cards stand to a day as their dates say', async () => {
    const now = (await ask<RatesOverview>('cards')).body;
    expect(now.day).toBe('2026-11-25');
    expect(now.cards.map(({ file, standing }) => [file, standing])).toContainEqual([
      'rate-cards/merrow-post.yaml',
      'in-force',
    ]);
    const early = (await ask<RatesOverview>('cards?day=2026-01-01')).body;
    expect(early.cards.find(({ carrier }) => carrier === 'merrow-post')?.standing).toBe('to-come');
    expect(await refused('cards?day=2026-02-30')).toMatchObject({ status: 422, body: { error: 'bad-day' } });
  });

  test('a table of prices holds what the card file says', async () => {
    const { body } = await ask<PriceTable>('table?service=light-parcel&day=2026-11-25');
    expect(body.zones).toEqual(['1', '2', '3', '4', '5', '6', '7', '8']);
    expect(body.rows.map(({ label, prices }) => [label, prices[0]])).toEqual([
      ['4 oz', 355],
      ['8 oz', 405],
      ['12 oz', 470],
      ['16 oz', 545],
    ]);
    expect((await refused('table?service=light-parcel&day=2025-11-25')).status).toBe(404);
  });
});

describe('what if', () => {
  test('offers come cheapest first with reasons and edges in the language that was asked for', async () => {
    const { body } = await ask<WhatIf>('what-if', { ...parcel('2026-11-25'), language: 'es' });
    const prices = body.offers.map(({ price }) => price.minor);
    expect(prices).toEqual(prices.toSorted((a, b) => a - b));
    const light = body.offers.find(({ service }) => service === 'light-parcel');
    expect(light?.name).toBe('Paquete ligero');
    expect(light?.reasons.join(' ')).toContain('paga el tramo de hasta 8 oz');
    expect(light?.edges.find(({ leads, along }) => leads === 'cheaper' && along === 'mass')?.words).toMatch(
      /^Con 4 oz menos/,
    );
    expect(body.refused.find(({ service }) => service === 'cubic-soft')?.why).toContain('Solo para paquetes blandos');
  });

  test('a mass on a ceiling pays that bracket, and the curve says the same on both sides of it', async () => {
    const at = async (mass: string) => (await ask<WhatIf>('what-if', { ...parcel('2026-11-25'), mass })).body;
    const on = await at('8 oz');
    const over = await at('8.0001 oz');
    const minor = (answer: WhatIf) => answer.offers.find(({ service }) => service === 'light-parcel')!.price.minor;
    const steps = on.curves.find(({ service }) => service === 'light-parcel')!.steps;
    expect(steps.find(({ upTo }) => upTo === 8)?.minor).toBe(minor(on));
    expect(steps.find(({ upTo }) => upTo === 12)?.minor).toBe(minor(over));
    expect(minor(over)).toBeGreaterThan(minor(on));
  });

  test.each([
    ['a negative mass', { mass: '-3 oz' }, 'bad-mass'],
    ['no mass', { mass: '0 oz' }, 'bad-mass'],
    ['a mass that is no number', { mass: 'NaN oz' }, 'bad-weight'],
    ['a mass without a unit', { mass: '8' }, 'bad-weight'],
    ['an absurd mass', { mass: '900 kg' }, 'bad-weight'],
    ['a side of nothing', { size: '0x8x2in' }, 'bad-size'],
    ['an absurd size', { size: '9000x8x2in' }, 'bad-size'],
    ['two sides', { size: '8x2in' }, 'bad-size'],
    ['two ways of giving the parcel', { soft: '8x2in' }, 'bad-parcel'],
    ['a container that is none', { size: undefined, container: 'hatbox' }, 'bad-container'],
    ['a day that is none', { day: '2026-13-01' }, 'bad-day'],
    ['neither zone nor postcode', { to: undefined }, 'bad-to'],
  ])('%s is refused with its field', async (_, change, code) => {
    const answer = await refused('what-if', { ...parcel('2026-11-25'), ...change });
    expect(answer).toMatchObject({ status: 422, body: { error: code } });
    expect(answer.body.message).toMatch(/expected|larger than/);
  });

  test('an unknown postcode is refused by name and never gets a zone', async () => {
    const { body } = await ask<WhatIf>('what-if', {
      ...parcel('2026-11-25'),
      to: { postcode: '00001', country: 'US' },
    });
    expect(body.offers).toEqual([]);
    expect(body.refused.some(({ why }) => why.includes('00001'))).toBe(true);
  });

  test('a body that is not understood is refused with the place', async () => {
    expect(await refused('what-if', { ...parcel('2026-11-25'), mass: 8 })).toMatchObject({
      status: 400,
      body: { error: 'bad-request' },
    });
  });
});

describe('a price list', () => {
  const files = () => readdirSync(join(config, 'rate-cards')).sort();
  let untouched: Map<string, string>;
  beforeEach(() => {
    untouched = new Map(files().map((name) => [name, readFileSync(join(config, 'rate-cards', name), 'utf8')]));
  });
  const nothingChanged = () => {
    const now = new Map(files().map((name) => [name, readFileSync(join(config, 'rate-cards', name), 'utf8')]));
    expect(now).toEqual(untouched);
  };

  const problemsOf = async (text: string, changes: Partial<RateImport> = {}) => {
    const { body } = await ask<RatePreview>('imports/preview', list({ text, ...changes }));
    expect(body.ready).toBe(false);
    return body.problems.map(({ cell, code }) => `${cell} ${code}`);
  };

  test('cells that make no sense are named, and nothing is stored', async () => {
    expect(await problemsOf('w\t1\t2\n1 lb\t4.00\t\n2 lb\t5.00\t5.50')).toEqual(['C2 gap']);
    expect(await problemsOf('w\t1\t2\n1 lb\t4.00\t4,50\n2 lb\t5.00\t5.50')).toEqual(['C2 bad-price']);
    expect(await problemsOf('w\t1\t2\n1 lb\t-4.00\t4.50')).toEqual(['B2 bad-price']);
    expect(await problemsOf('w\t1\t2\n1 lb\t4.00\t4.50\n1 lb\t5.00\t5.50')).toEqual(['A3 repeated-row']);
    expect(await problemsOf('w\t1\t2\n1 lb\t4.00\t4.50\n2 lb\t€5.00\t5.50')).toEqual(['B3 bad-price']);
    expect(await problemsOf('w\t1\t2\n1 lb\t4.00\t4.50\n2 lb\t3.00\t5.50')).toEqual(['B3 falling-price']);
    expect(await refused('imports/apply', list({ text: 'w\t1\t2\n1 lb\t4.00\t' }))).toMatchObject({
      status: 409,
      body: { error: 'not-ready', message: expect.stringContaining('C2: expected a price') as string },
    });
    expect((await refused('imports/preview', list({ text: ' ' }))).body.error).toBe('empty');
    nothingChanged();
  });

  test('a file saved with decimal commas and semicolons is understood when the form says so', async () => {
    const csv = 'Peso;1;2\n1 lb;1.004,00 $;1.004,50 $\n2 lb;1.005,00 $;1.005,50 $';
    const file = { name: 'tarifa.csv', base64: Buffer.from(csv, 'latin1').toString('base64') };
    const asked: Partial<RateImport> = { file, decimal: ',', service: 'slow-parcel', zones: { by: 'flat', zone: '1' } };
    const rest = { ...list(asked), text: undefined };
    const { body } = await ask<RatePreview>('imports/preview', rest);
    expect(body.problems).toEqual([]);
    expect(body.yaml).toContain('upTo: 1 lb, prices: [ 1004.00, 1004.50 ]');
    const found = await ask<RatePreview>('imports/preview', { ...rest, decimal: null });
    expect(found.body.yaml).toEqual(body.yaml);
    const wrong = await ask<RatePreview>('imports/preview', { ...rest, decimal: '.' });
    expect(wrong.body.problems.every(({ code }) => code === 'bad-price')).toBe(true);
    nothingChanged();
  });

  test('a first list with one price for everywhere needs neither a card before it nor a name for its zone', async () => {
    const text = 'hasta (g);precio\n100;3,65\n500;4,90\n';
    const first = { text, decimal: null, carrier: 'correo-sur', service: 'paquete' };
    for (const zones of [{ by: 'as-before' }, { by: 'flat', zone: '' }] as const) {
      const { body } = await ask<RatePreview>('imports/preview', list({ ...first, zones }));
      expect(body.formProblems).toEqual([]);
      expect(body.yaml).toContain('by: flat\n    zone: precio');
      expect(body.ready).toBe(true);
    }
    nothingChanged();
  });

  test('prices that fall are a warning, and meant once somebody accepts it', async () => {
    const text = 'w\t1\t2\n1 lb\t4.00\t4.50\n2 lb\t3.00\t5.50';
    const asked = list({ text, service: 'slow-parcel', zones: { by: 'flat', zone: '1' } });
    const { body } = await ask<RatePreview>('imports/preview', asked);
    expect(body).toMatchObject({ ready: false, yaml: null, problems: [{ cell: 'B3', severity: 'warning' }] });
    const accepted = await ask<RatePreview>('imports/preview', { ...asked, acceptWarnings: true });
    expect(accepted.body).toMatchObject({ ready: true, configProblems: [] });
    expect(accepted.body.yaml).toContain('fallingPrices: true');
    nothingChanged();
  });

  test('a chart, bands and ids that make no sense are named', async () => {
    const chart: Partial<RateImport> = {
      service: 'slow-parcel',
      zones: { by: 'chart', text: 'from,to,zone\n558,55,1\n558,600,', country: 'US', origin: null },
    };
    const { body } = await ask<RatePreview>('imports/preview', list(chart));
    expect(body.chartProblems.map(({ cell, code }) => `${cell} ${code}`)).toEqual(['B2 lost-zeros', 'C3 no-zone']);
    const bands: Partial<RateImport> = {
      service: 'slow-parcel',
      zones: {
        by: 'distance',
        unit: 'mi',
        country: 'US',
        bands: [
          { upTo: 500, zone: '1' },
          { upTo: 100, zone: '2' },
        ],
      },
    };
    expect((await ask<RatePreview>('imports/preview', list(bands))).body.formProblems).toMatchObject([
      { field: 'zones', code: 'bad-zones', found: '100 2' },
    ]);
    expect(
      (await ask<RatePreview>('imports/preview', list({ carrier: 'Merrow Post', from: '2027-02-30' }))).body,
    ).toMatchObject({
      formProblems: [
        { field: 'carrier', code: 'bad-id' },
        { field: 'from', code: 'bad-day' },
      ],
      ready: false,
    });
    nothingChanged();
  });

  test('a list that would leave a service on two cards at once is refused with file and path', async () => {
    const { body } = await ask<RatePreview>(
      'imports/preview',
      list({ from: '2026-01-18', zones: { by: 'flat', zone: '1' } }),
    );
    expect(body.ready).toBe(false);
    expect(body.configProblems).toMatchObject([
      { file: 'rate-cards/merrow-post.yaml', path: 'services[0]', expected: 'a service on one card at a time' },
    ]);
    expect(
      (await refused('imports/apply', list({ from: '2026-01-18', zones: { by: 'flat', zone: '1' } }))).body.error,
    ).toBe('shop-would-not-load');
    nothingChanged();
  });

  test('the preview says what goes up and what that means for the parcels that were sent', async () => {
    const sent: FinishedParcel = {
      order: 'nobody',
      run: 'r1',
      number: 1,
      of: 1,
      bench: 'north',
      packer: null,
      pieces: [],
      container: 'pouch-10x13',
      filled: { width: 254, length: 330, thickness: 30 },
      wrap: 'none',
      recipes: [],
      carrier: 'merrow-post',
      service: 'light-parcel',
      zone: '4',
      planned: { minor: 440, currency: 'USD' },
      owed: { minor: 440, currency: 'USD' },
      reading: parseMass('7.9 oz'),
      readingUnit: 'oz',
      toCome: parseMass('0.1 oz'),
      ceiling: parseMass('8 oz'),
      uncertainty: 0,
      expectedGrams: 226,
      verdict: 'clear',
      because: null,
      decided: null,
      labelByEye: false,
      postcode: '60614',
      startedAt: null,
    };
    await saveParcel(running.store, sent, null, NOW - 5 * 86_400_000);
    await saveParcel(running.store, { ...sent, run: 'r2' }, null, NOW - 40 * 86_400_000);
    const { body } = await ask<RatePreview>('imports/preview', list());
    expect(body).toMatchObject({
      ready: true,
      problems: [],
      file: 'rate-cards/merrow-post-light-parcel-2027-01-17.yaml',
      ends: [{ file: 'rate-cards/merrow-post.yaml', service: 'light-parcel', until: '2027-01-16' }],
    });
    const { difference } = body;
    expect(difference?.changes).toHaveLength(32);
    expect(difference?.changes[0]).toEqual({ row: '4 oz', zone: '1', before: 355, after: 365 });
    // 8 oz on the ceiling, one parcel inside the 30 days: ten cents more.
    expect(difference?.sent).toMatchObject({ parcels: 1, left: 0 });
    expect(difference!.sent.after - difference!.sent.before).toBe(10);
    nothingChanged();
  });

  test('applied, the running shop asks the new price from its day on and not before', async () => {
    const before = await priceOn('2027-01-17');
    const { status, body } = await ask<RateApplied>('imports/apply', list());
    expect(status).toBe(200);
    expect(body.file).toBe('rate-cards/merrow-post-light-parcel-2027-01-17.yaml');
    expect(body.kept).toEqual(['rate-cards/merrow-post.yaml.until-20261125-180000']);
    expect(readFileSync(join(config, body.kept[0]!), 'utf8')).toBe(untouched.get('merrow-post.yaml'));
    expect(await priceOn('2027-01-16')).toBe(before);
    expect(await priceOn('2027-01-17')).toBe(before! + 10);
    const made = readFileSync(join(config, body.file), 'utf8');
    expect(made).toContain('smallest-size');
    expect(made).toContain('1006.85');
    expect(made).not.toContain('only a zone that is given');
    // Of the card before, the last day is written in and every other byte stays.
    const ended = readFileSync(join(config, 'rate-cards/merrow-post.yaml'), 'utf8');
    expect(ended.replace('    until: 2027-01-16\n', '')).toBe(untouched.get('merrow-post.yaml'));
    expect(ended).toContain('until: 2027-01-16');
    // A limit that was carried over still refuses.
    const { body: long } = await ask<WhatIf>('what-if', { ...parcel('2027-01-17'), size: '24x8x2in' });
    expect(long.refused.find(({ service }) => service === 'light-parcel')?.why).toContain('too long');
  });

  test('two days of a service are held against each other, with the parcels that were sent', async () => {
    const { body } = await ask<PriceDifference>('difference?service=light-parcel&before=2027-01-16&after=2027-01-17');
    expect(body).toMatchObject({ before: '2027-01-16', after: '2027-01-17', otherRule: false });
    expect(body.changes).toContainEqual({ row: '8 oz', zone: '4', before: 440, after: 450 });
    expect(body.sent).toMatchObject({ parcels: 1 });
    expect(body.sent.after - body.sent.before).toBe(10);
    const same = await ask<PriceDifference>('difference?service=ground&before=2026-11-25&after=2027-01-17');
    expect(same.body).toMatchObject({ changes: [], sent: { parcels: 0 } });
    expect((await refused('difference?service=light-parcel&before=2025-01-01&after=2027-01-17')).status).toBe(404);
    expect((await refused('difference?service=light-parcel&before=2027-02-30&after=2027-01-17')).status).toBe(422);
  });

  test('the same day again gives way only when asked, and the card before it is kept', async () => {
    const again = list({ text: LIST.replace('$4.15', '$4.16') });
    const { body } = await ask<RatePreview>('imports/preview', again);
    expect(body).toMatchObject({ ready: false, exists: true, formProblems: [{ field: 'replace', code: 'exists' }] });
    expect((await refused('imports/apply', again)).body.error).toBe('not-ready');
    nothingChanged();
    const applied = await ask<RateApplied>('imports/apply', { ...again, replace: true });
    expect(applied.body.kept).toContain('rate-cards/merrow-post-light-parcel-2027-01-17.yaml.until-20261125-180000');
    const { body: table } = await ask<PriceTable>('table?service=light-parcel&day=2027-01-17');
    expect(table.rows[1]?.prices[0]).toBe(416);
  });

  test('a new service with its own chart answers for the postcodes on it', async () => {
    const asked = list({
      text: 'w,near,far\n1 lb,4.00,6.00\n2 lb,5.00,7.00',
      service: 'slow-parcel',
      serviceName: 'Slow parcel',
      from: '2026-11-01',
      zones: { by: 'chart', text: '550-567,near\n600-606,far', country: 'US', origin: '558' },
    });
    expect((await ask<RatePreview>('imports/preview', asked)).body).toMatchObject({ ready: true, difference: null });
    expect((await ask<RateApplied>('imports/apply', asked)).status).toBe(200);
    expect(await priceOn('2026-11-25', 'slow-parcel')).toBe(600);
  });

  test('a config that does not load changes nothing and says why', async () => {
    const shop = join(config, 'shop.yaml');
    const text = readFileSync(shop, 'utf8');
    writeFileSync(shop, text.replace('currency: USD', 'currency: EUR'));
    try {
      const answer = await refused('reload', {});
      expect(answer).toMatchObject({ status: 409, body: { error: 'shop-would-not-load' } });
      expect(answer.body.message).toContain('rate-cards/merrow-post.yaml');
      expect((await refused('imports/apply', list({ from: '2027-03-01' }))).status).toBe(409);
      nothingChanged();
      expect(await priceOn('2026-11-25')).toBeGreaterThan(0);
    } finally {
      writeFileSync(shop, text);
    }
    expect((await ask<{ services: number }>('reload', {})).status).toBe(200);
  });
});
