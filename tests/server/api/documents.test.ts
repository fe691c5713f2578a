import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Validator } from '@seriousme/openapi-schema-validator';
import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asyncApi, messageName } from '#server/api/asyncapi.ts';
import { openApi, openPath } from '#server/api/openapi.ts';
import { OPERATIONS } from '#server/api/operations.ts';
import { API_VERSION } from '#server/api/version.ts';
import { readWire } from '#server/api/wire.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { routesOf } from '#tests/support/routes-of.ts';
import { Schemas } from '#tests/support/schemas.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const wire = readWire('build/api/wire.json');
const http = openApi(wire);
const sockets = asyncApi(wire);
const require = createRequire(import.meta.url);

interface Described {
  readonly responses: Readonly<Record<string, { readonly content?: Readonly<Record<string, { schema: unknown }>> }>>;
}
const paths = http['paths'] as Readonly<Record<string, Readonly<Record<string, Described>>>>;

describe('the documents', () => {
  it('are OpenAPI 3.1 as its specification has it, by a validator that is not ours', async () => {
    const validator = new Validator();
    expect(await validator.validate(structuredClone(http))).toMatchObject({ valid: true });
    expect(validator.version).toBe('3.1');
    expect((http['info'] as { version: string }).version).toBe(API_VERSION);
  });

  it('are AsyncAPI 3.0 by the schema that its specification publishes', () => {
    const schema = JSON.parse(readFileSync(require.resolve('@asyncapi/specs/schemas/3.0.0.json'), 'utf8')) as object;
    const ajv = new Ajv({ strict: false, allErrors: true, meta: false, validateSchema: false, validateFormats: false });
    const check = ajv.compile(schema);
    check(sockets);
    expect(check.errors ?? []).toEqual([]);
  });

  it('call each thing by one name and refer to nothing that is not there', () => {
    const ids = OPERATIONS.map(({ id }) => id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    const all = wire.events.map(messageName);
    expect(all.filter((name, index) => all.indexOf(name) !== index)).toEqual([]);
    for (const document of [http, sockets]) {
      const references = [...JSON.stringify(document).matchAll(/"\$ref":"#\/([^"]+)"/g)].map(([, path = '']) => path);
      const found = (path: string) =>
        path.split('/').reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], document);
      expect(references.filter((path) => found(path) === undefined)).toEqual([]);
      expect(references.length).toBeGreaterThan(20);
    }
  });
});

describe('a running server', () => {
  const data = temporaryFolder('api');
  let server: Awaited<ReturnType<typeof serverOn>>;
  const schemas = new Schemas(http, 2020);

  beforeAll(async () => {
    server = await serverOn(copyOfConfig(), data.path);
  }, 60_000);

  afterAll(async () => {
    await server.stop();
    data.remove();
    removeConfigFolders();
  });

  it('serves both documents', async () => {
    const served = async (name: string) => await (await fetch(`${server.url}/api/${name}`)).json();
    expect(await served('openapi.json')).toEqual(JSON.parse(JSON.stringify(http)));
    expect(await served('asyncapi.json')).toEqual(JSON.parse(JSON.stringify(sockets)));
  });

  it('has every route in the document, and the document no other', () => {
    const described = OPERATIONS.map(({ method, path, route }) => `${method.toUpperCase()} ${route ?? path}`);
    const routed = routesOf(server.app).filter((each) => !PAGES.test(each));
    expect(routed.filter((each) => !described.includes(each))).toEqual([]);
    expect(described.filter((each) => !routed.includes(each))).toEqual([]);
  });

  it('sends and answers what the documents say, for a whole order and for every route', async () => {
    const bench = new BenchClient(server.url, 'bench-1');
    const seen = new Map<string, unknown[]>();
    bench.socket.onAny((event: string, ...args: unknown[]) => {
      seen.set(event, [...(seen.get(event) ?? []), args.length === 1 ? args[0] : args]);
    });
    await bench.at('idle');
    const packed = await packNext(bench);
    bench.close();

    const events = new Schemas(sockets, 7);
    const messages = (sockets['components'] as { messages: Record<string, { payload: unknown }> }).messages;
    const wrong: string[] = [];
    const judge = (name: string, problems: readonly string[]) => {
      for (const problem of problems) wrong.push(`${name} ${problem.replaceAll(/\/\d+/g, '/n')}`);
    };
    for (const [event, payloads] of seen) {
      const schema = messages[messageName({ namespace: 'bench', event })]?.payload;
      if (schema === undefined) judge(event, ['is not described']);
      else for (const payload of payloads) judge(event, events.problems(schema, payload));
    }
    expect([...seen.keys()].sort()).toEqual(
      expect.arrayContaining(['devices', 'pages', 'scale', 'simulator', 'view', 'voice']),
    );

    const asked = new Set<string>();
    const ask = async (method: string, path: string, body?: unknown, query = '') => {
      const actual = path.replaceAll(/\{(\w+)\}/g, (_, name: string) =>
        encodeURIComponent(VALUES[name] ?? packed.order),
      );
      const response = await fetch(`${server.url}${actual}${query}`, {
        method,
        ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
      });
      const described = paths[path]?.[method.toLowerCase()];
      const type = (response.headers.get('content-type') ?? '').split(';')[0] ?? '';
      const status = String(response.status);
      asked.add(`${method} ${path} ${status}`);
      if (type !== 'application/json') {
        await response.body?.cancel();
        const medias = Object.keys(described?.responses['200']?.content ?? {});
        const asDescribed = medias.includes(type) || medias.includes('*/*');
        expect({ path, type, medias, asDescribed }).toMatchObject({ asDescribed: true });
        return;
      }
      const answer: unknown = await response.json();
      const schema = described?.responses[status]?.content?.['application/json']?.schema ?? {
        $ref: '#/components/schemas/OfficeError',
      };
      const problems = path.endsWith('api.json') ? [] : schemas.problems(schema, answer);
      judge(`${method} ${path} ${status}`, problems);
    };
    for (const { method, path } of OPERATIONS) {
      if (method === 'get') await ask('GET', openPath(path), undefined, QUERIES[path] ?? '');
    }
    for (const [path, body] of POSTS) await ask('POST', path, body);
    expect([...new Set(wrong)]).toEqual([]);
    expect([...asked]).toContain('GET /api/what-fits 200');
    const wellAnswered = [...asked].filter((each) => each.endsWith('200')).length;
    expect(wellAnswered).toBeGreaterThan(40);
    expect([...asked].filter((each) => each.endsWith('500'))).toEqual([]);
  }, 60_000);
});

/** Served to browsers as they are: no part of the contract. */
const PAGES = /^GET (\/|\/(office|bench).*|\/bench-worker\.js|\/app\/.*)$/;

const VALUES: Readonly<Record<string, string>> = {
  bench: 'bench-1',
  carrier: 'merrow-post',
  item: 'label',
  kind: 't-shirt',
  file: 'none.wav',
};
const QUERIES: Readonly<Record<string, string>> = {
  '/api/search': '?text=OT',
  '/api/what-fits': '?kind=t-shirt&size=M&mass=8,5',
  '/api/rates/table': '?service=light-parcel',
  '/api/rates/difference': '?service=light-parcel',
  '/api/report': '?by=kind',
};
const POSTS: readonly (readonly [string, unknown])[] = [
  ['/api/rates/what-if', { day: '', mass: '15.9 oz', container: 'pouch-10x13', zone: '4', language: 'en' }],
  ['/api/intake-tokens', { name: 'web shop', may: ['orders'] }],
  ['/api/intake/orders', []],
  ['/api/imports/look', 'what,else\n1,2'],
  [
    '/api/import-sources',
    {
      name: 'stall',
      subject: 'pieces',
      header: ['a', 'b'],
      fields: { sku: { column: 0 }, kind: { constant: 'hat' } },
      decimalMark: null,
      days: null,
    },
  ],
  ['/api/hand-over/{carrier}/begin', { bench: null }],
  ['/api/hand-over/{carrier}/scan', { text: 'nobody has this' }],
  ['/api/hand-over/{carrier}/close', { by: null, leave: 0 }],
  ['/api/orders/{id}/cancel', {}],
  ['/api/devices/{bench}/documents', { what: 'test', language: 'en', print: false }],
  ['/api/devices/{bench}/test-scan', {}],
  ['/api/devices/{bench}/scale', { task: 'zero' }],
  ['/api/devices/{bench}/reference-check', { language: 'en' }],
  ['/api/form-trial', { form: { kind: 'own', pattern: '(?<weight>[0-9.]+) (?<unit>kg)' }, sample: '1.2 kg\n' }],
  ['/api/labels/stand-in', { on: true }],
  ['/api/supplies-order-list', { bench: 'bench-1', language: 'es', print: false }],
  ['/api/hand-over-cards', { bench: 'bench-1', language: 'es', print: false }],
  ['/api/rates/reload', {}],
  ['/api/combining', { orders: ['a', 'b'] }],
];
