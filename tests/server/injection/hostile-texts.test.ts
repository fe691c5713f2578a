import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parse } from 'csv-parse/sync';
import { strFromU8, unzipSync } from 'fflate';
import { z } from 'zod';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { slipDocument } from '#drivers/printer/documents/slip.ts';
import { encode } from '#drivers/printer/encode.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { paperSvg } from '#drivers/printer/paper-svg.ts';
import { ROUTES } from '#server/access/route-table.ts';
import { isMedia } from '#server/api/operation.ts';
import { OPERATIONS } from '#server/api/operations.ts';
import { simulatedLabel } from '#server/labels/simulated-label.ts';
import { openLog } from '#server/log.ts';
import { startServer, type Running } from '#server/server.ts';
import { restore } from '#shared/words/formula-cells.ts';
import type { LabelRequest } from '#shared/wire/label.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { hostileConfig, seedHostile } from '#tests/support/hostile-shop.ts';
import { HOSTILE_TEXTS } from '#tests/support/hostile-texts.ts';
import { rawRequest } from '#tests/support/raw-request.ts';
import { sampleOf } from '#tests/support/schema-sample.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

// Hostile texts stand wherever a stranger can put one; every output that is no page is looked through here, pages in tests/browser.

const SECRET = 'what no answer may hold';
const data = temporaryFolder('hostile');
let server: Running & { readonly url: string };
let ids: readonly string[];

beforeAll(async () => {
  writeFileSync(join(data.path, 'secret.txt'), SECRET);
  const config = hostileConfig();
  writeFileSync(join(config, 'secret.txt'), SECRET);
  const settings = { host: '127.0.0.1', port: 0, data: data.path, database: null, config, log: 'file' } as const;
  const { log } = openLog(settings);
  log.level = 'trace';
  const running = await startServer({ settings, pages: resolve('build/ui'), templates: resolve('config'), log });
  server = { ...running, url: `http://127.0.0.1:${String(running.port)}` };
  ids = await seedHostile(server.store, Date.now());
}, 60_000);
afterAll(async () => {
  await server.stop();
  data.remove();
  removeConfigFolders();
});

const texts = HOSTILE_TEXTS.map(({ text }) => text);
/** A few of the texts for each of many, all of them in turn; with HOSTILE_WHOLE set every one for each. */
const WHOLE = process.env['HOSTILE_WHOLE'] !== undefined;
const paths = HOSTILE_TEXTS.filter(({ name }) => name.startsWith('path') || name === 'nul').map(({ text }) => text);
let turn = 0;
const someOf = (count: number): readonly string[] =>
  WHOLE ? texts : Array.from({ length: count }, () => texts[(turn += 1) % texts.length] ?? '');

/** With a sign for what is no character. */
const wellFormed = (text: string): string => Buffer.from(text).toString();
const json = { 'content-type': 'application/json' };

/** Whatever is asked for, the server stands, gives nothing away and says nothing that a client could take for something else. */
async function isHarmless(asked: string, path: string, how: Parameters<typeof rawRequest>[2] = {}): Promise<string[]> {
  const wrong: string[] = [];
  const { status, headers, rawHeaders, body } = await rawRequest(server.url, path, how);
  const told = `${asked} ${path.slice(0, 90)} ${(how.body ?? '').slice(0, 90)}`;
  if (status >= 500) wrong.push(`${told}: ${String(status)} ${body.toString().slice(0, 200)}`);
  if (body.includes(SECRET) || body.includes('root:x:0')) wrong.push(`${told}: gave a file away`);
  if (rawHeaders.some((each) => /[^\t\x20-\x7e]|zqmark=1/.test(each))) wrong.push(`${told}: ${rawHeaders.join(' ')}`);
  const type = String(headers['content-type'] ?? '');
  // Whatever echoes what was asked is never a page, or a page where nothing can run.
  if (/html|xml|javascript/.test(type) && /class=.zqmark|<script class/.test(body.toString())) {
    wrong.push(`${told}: echoed as ${type}`);
  }
  if (headers['x-content-type-options'] !== 'nosniff') wrong.push(`${told}: ${String(status)} may be guessed at`);
  return wrong;
}

describe('what is asked for with a hostile text', () => {
  const written = (text: string): readonly string[] => {
    const short = text.slice(0, 1200);
    const plain = short.replace(/[^!-~]/g, (each) => encodeURIComponent(wellFormed(each)));
    return [encodeURIComponent(wellFormed(short)), plain.replace(/[?#]/g, encodeURIComponent)];
  };
  const withParameters = Object.keys(ROUTES).filter((route) => /[:*]/.test(route));

  it('in a path: no route fails, reads a file that is not its own, or echoes it as a page', async () => {
    const wrong: string[] = [];
    expect(withParameters.length).toBeGreaterThan(30);
    for (const route of withParameters) {
      const [method = '', path = ''] = route.split(' ');
      for (const text of [...paths, ...someOf(1)]) {
        for (const each of new Set(written(text))) {
          const body = method === 'GET' ? {} : { body: '{}', headers: json };
          wrong.push(...(await isHarmless(route, path.replace(/[:*]\w+/g, each), { method, ...body })));
        }
      }
    }
    expect(wrong).toEqual([]);
  });

  it('in a query: likewise', async () => {
    const wrong: string[] = [];
    const names = [
      'text',
      'key',
      'file',
      'name',
      'language',
      'from',
      'by',
      'sort',
      'after',
      'sku',
      'kind',
      'day',
      'id',
    ];
    const described = OPERATIONS.flatMap(({ query }) => Object.keys(query?.shape ?? {}));
    const all = [...new Set([...names, ...described])];
    for (const route of Object.keys(ROUTES).filter((each) => each.startsWith('GET /api'))) {
      const path = (route.split(' ')[1] ?? '').replace(/:\w+/g, 'none');
      for (const text of someOf(3).filter((each) => each.length < 2000)) {
        const query = all.map((name) => `${name}=${encodeURIComponent(wellFormed(text))}`).join('&');
        if (query.length < 15_000) wrong.push(...(await isHarmless(route, `${path}?${query}`)));
      }
    }
    expect(wrong).toEqual([]);
  });

  it('in every field of a request: likewise, and what is taken is taken whole', async () => {
    const wrong: string[] = [];
    for (const { path, method, body } of OPERATIONS) {
      if (body === undefined || isMedia(body) || path.includes('/intake/')) continue;
      const schema = z.toJSONSchema(body, { io: 'input', unrepresentable: 'any' });
      for (const text of someOf(4)) {
        const asked = path.replace(/:\w+/g, 'bench-1');
        const sent = JSON.stringify(sampleOf(schema, text));
        wrong.push(...(await isHarmless(method, asked, { method: method.toUpperCase(), headers: json, body: sent })));
      }
    }
    expect(wrong).toEqual([]);
  });

  it('as a file and as its name: likewise', async () => {
    const wrong: string[] = [];
    for (const text of someOf(12)) {
      const cell = `"${text.replaceAll('"', '""')}"`;
      const file = `order,sku,buyer,street,postcode,ship by,note\nZ1,${cell},${cell},${cell},55802,2027-01-05,${cell}\n`;
      const headers = {
        'content-type': 'text/csv',
        'x-file-name': encodeURIComponent(wellFormed(text).slice(0, 300)),
      };
      for (const path of [
        '/api/imports/orders/preview',
        '/api/imports/pieces/preview',
        '/api/labels/numbers',
        '/api/corrections',
        '/api/imports/look',
      ]) {
        wrong.push(...(await isHarmless('POST', path, { method: 'POST', headers, body: file })));
      }
    }
    expect(wrong).toEqual([]);
  });

  it('as a scan, a command or anything else that a screen sends: the bench stands', async () => {
    const bench = new BenchClient(server.url, 'bench-1');
    await bench.until(({ view }) => view, 'a view');
    for (const text of texts) await bench.simulate({ do: 'scan', text });
    for (const text of texts) {
      await bench.input({ id: text, type: 'command', command: text, by: text } as never);
      await bench.input({ id: text, type: 'scan', text } as never);
    }
    expect(await bench.command('next')).toMatchObject({ ok: true });
    bench.close();
  });
});

/** A request for a label that goes to somebody of that name. */
const requestTo = (text: string): LabelRequest => ({
  version: 1,
  key: 'k-1',
  replaces: null,
  order: text,
  parcel: { number: 1, of: 1 },
  bench: 'bench-1',
  from: { address: [text], postcode: '55802', country: 'US' },
  to: { name: text, address: [text, text], postcode: text, country: 'US' },
  carrier: 'merrow-post',
  service: text,
  container: text,
  size: null,
  mass: { amount: '1.00', unit: 'oz' },
  postage: { minor: 480, currency: 'USD' },
  customs: null,
  accepts: ['escpos'],
});

describe('what comes out', () => {
  const PLAIN_NUMBER = /^-?\d+(\.\d+)?$/;
  it.each(['parcels', 'shipments', 'report', 'supplies'])('%s.csv: no cell runs, none is lost', async (name) => {
    const by = name === 'report' ? '?by=person' : '';
    const answer = await fetch(`${server.url}/api/exports/${name}.csv${by}`);
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-disposition')).toMatch(/^attachment; filename="?[\w.-]+\.csv"?$/);
    const text = (await answer.text()).replace(/^\ufeff/, '');
    const rows = parse(text, { record_delimiter: '\r\n' });
    const cells = rows.flat();
    // OWASP, "CSV Injection": what a spreadsheet takes for the beginning of a formula, also behind blanks.
    expect(cells.filter((cell) => /^(?:[\t\r\n]|\s*[=+\-@＝＋－＠])/u.test(cell) && !PLAIN_NUMBER.test(cell))).toEqual(
      [],
    );
    expect(rows.every((row) => row.length === rows[0]?.length)).toBe(true);
    const restored = new Set(cells.map(restore));
    const expected = texts.filter((each) => wellFormed(each) === each);
    if (name === 'parcels') expect(expected.filter((each) => !restored.has(each))).toEqual([]);
    if (name === 'shipments') expect(ids.filter((each) => !restored.has(each))).toEqual([]);
  });

  it('slips, lists and labels: only our own commands, one cut, no drawer, nothing the printer does not know', () => {
    const settings = { paper: 80, columns: 48, dotsPerLine: 576, cutter: true } as const;
    for (const [index, { name, text }] of HOSTILE_TEXTS.entries()) {
      const documents = [
        slipDocument({
          language: index % 2 === 0 ? 'en' : 'es',
          shop: { name: text, address: [text] },
          order: text,
          orderCode: `BFO-${String(index)}`,
          buyer: [text, text],
          pieces: [{ sku: text, title: text }],
          container: text,
          service: text,
          reading: text,
          margin: text,
          thanks: text,
          returns: text,
        }),
      ];
      for (const document of documents) {
        const bytes = encode(document, settings);
        const paper = interpret(bytes, settings);
        const cuts = paper.rows.filter(({ kind }) => kind === 'cut').length;
        const codes = paper.rows.flatMap((row) => (row.kind === 'code128' ? [row.text] : []));
        expect({ name, drawer: paper.drawerOpened, unknown: paper.unknown, cuts, codes, asked: paper.queries }).toEqual(
          {
            name,
            drawer: false,
            unknown: [],
            cuts: 1,
            codes: [`BFO-${String(index)}`],
            asked: [],
          },
        );
        expect(paperSvg(paper)).not.toMatch(/<(?!\/?(?:svg|rect|g|text|line|title)\b)/);
      }
      const label = simulatedLabel(requestTo(text), 'TRACK-1');
      expect(interpret(label.bytes, settings)).toMatchObject({ drawerOpened: false, unknown: [] });
      // ISO 32000-1, 7.3.4.2: a string ends at its bracket, so there is one for each line and nothing behind.
      const pdf = Buffer.from(simulatedLabel({ ...requestTo(text), accepts: ['pdf'] }, 'TRACK-1').bytes).toString(
        'latin1',
      );
      const [, content = ''] = /stream\n([\s\S]*?)\nendstream\nendobj\n5 0 obj/.exec(pdf) ?? [];
      for (const line of content.split('\n').slice(1, -1)) expect(line).toMatch(/^\((?:[^\\()]|\\[\\()])*\) Tj T\*$/);
    }
  });

  it('the log: one whole line for each entry, without a sign that a terminal obeys', async () => {
    // A device's own name is one of the few texts of a stranger that the log holds.
    const make = async (path: string, body: object) =>
      (await (
        await fetch(`${server.url}/api/access/${path}`, { method: 'POST', headers: json, body: JSON.stringify(body) })
      ).json()) as { code: string };
    for (const { name, text } of HOSTILE_TEXTS.filter((each) => /terminal|line|right|printer/.test(each.name))) {
      const { code } = await make('codes', { for: 'pair' });
      expect({ name, paired: await make('pair', { code, name: text.slice(0, 40) }) }).not.toHaveProperty(
        'paired.error',
      );
    }
    const lines = readFileSync(join(data.path, 'server.log'), 'utf8').split('\n').slice(0, -1);
    expect(lines.length).toBeGreaterThan(8);
    for (const line of lines) {
      // eslint-disable-next-line no-control-regex -- they are what is looked for
      expect(line).not.toMatch(/[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]/);
      expect(JSON.parse(line)).toMatchObject({
        level: expect.any(Number) as number,
        msg: expect.any(String) as string,
      });
    }
    expect(lines.filter((line) => line.includes('"msg":"forged"'))).toEqual([]);
  });

  it('the bundle for diagnostics and the names of backups hold none of it', async () => {
    const answer = await fetch(`${server.url}/api/diagnostics.zip`);
    const files = Object.entries(unzipSync(new Uint8Array(await answer.arrayBuffer())));
    for (const [name, bytes] of files)
      expect({ name, marked: /zqmark/i.test(strFromU8(bytes)) }).toEqual({ name, marked: false });
    const made = await fetch(`${server.url}/api/backups`, { method: 'POST' });
    expect(made.status).toBe(200);
    const names = readdirSync(data.path, { recursive: true }).map(String);
    expect(names.filter((name) => !/^[\w./#-]+$/.test(name) || /zqmark/i.test(name))).toEqual([]);
  });

  it('the shop’s files still say what they said', () => {
    expect(loadShop('config').staff.length).toBeGreaterThan(0);
  });
});
