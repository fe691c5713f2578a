import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import type { ImportApplied, ImportPreview } from '#shared/wire/office.ts';

const data = temporaryFolder('large');
let server: ServerProcess;
let bench: BenchClient;

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  const rows = Array.from({ length: 130 }, (_, at) => {
    // every fifth of no size, cloth or mass
    const known = at % 5 === 0 ? ',,' : `${['S', 'M', 'L'][at % 3] ?? ''},jersey,${String(120 + at)} g`;
    return `PC-${String(at)},tee ${String(at)},t-shirt,${known}`;
  });
  const pieces = await preview('pieces', ['sku,title,kind,size,cloth,mass', ...rows].join('\n'));
  expect(pieces.refused).toEqual([]);
  await apply(pieces);
  bench = new BenchClient(server.url, 'bench-1');
  await at('idle');
});

afterAll(async () => {
  bench.close();
  await server.stop();
  data.remove();
});

async function post<Answer>(path: string, body: string): Promise<Answer> {
  return (await (await fetch(`${server.url}/api/imports/${path}`, { method: 'POST', body })).json()) as Answer;
}
const preview = (subject: string, text: string) => post<ImportPreview>(`${subject}/preview`, text);
const apply = ({ id }: ImportPreview) => post<ImportApplied>(`${id}/apply`, '');

const skus = (from: number, count: number) => Array.from({ length: count }, (_, at) => `PC-${String(from + at)}`);
const orders = (...rows: readonly string[]) =>
  preview('orders', ['order,skus,buyer,postcode,country,shipBy,arriveBy', ...rows].join('\n'));
const row = (id: string, list: readonly string[], arriveBy = '') =>
  `${id},${list.join(' ')},Ida Tamberlow,55101,US,+0d 23:59,${arriveBy}`;

/** Long, since planning an order of ten pieces takes its time on a busy computer. */
const LONG = 25_000;
const at = (task: 'idle' | 'gather') =>
  bench.until(({ view }) => view?.task.at === task && view, `the task ${task}`, LONG);

async function take(text: string): Promise<void> {
  const ack = await bench.simulate({ do: 'scan', text });
  if (!ack.ok) throw new Error(ack.message);
}

it('an order of no pieces and one of 60 are refused by line, with what would do; one of 40 comes in', async () => {
  const file = await orders(row('N0', []), row('N60', skus(0, 60)), row('N40', skus(60, 40)));
  expect(file.refused).toEqual([
    { line: 2, column: 'skus', expected: 'one or more SKUs', found: 'an empty cell' },
    {
      line: 3,
      column: 'skus',
      expected: 'at most 40 pieces in one order; divide it into several',
      found: '60 pieces',
    },
  ]);
  expect(file.added.map(({ id }) => id)).toEqual(['N40']);
  await apply(file);
  await take('BFO-N40');
  const view = await at('gather');
  expect(view.order?.pieces).toHaveLength(40);
  const doubts = view.container?.doubts ?? [];
  expect(doubts).toContainEqual({ about: 'assumed', what: ['size', 'cloth'], weighed: false });
  const notProven = doubts.find(({ about }) => about === 'not-proven');
  expect(notProven).toMatchObject({ dearer: { currency: 'USD' }, least: { currency: 'USD' } });
  if (notProven?.about !== 'not-proven') return;
  expect(notProven.least.minor).toBeGreaterThan(500);
  expect(notProven.dearer.minor).toBeGreaterThan(0);
  await bench.command('back');
  await at('idle');
}, 60_000);

it('an order of ten pieces is proven the cheapest, one of eleven is not', async () => {
  await apply(await orders(row('N10', skus(0, 10)), row('N11', skus(20, 11))));
  for (const [id, proven] of [
    ['N10', true],
    ['N11', false],
  ] as const) {
    await take(`BFO-${id}`);
    const view = await bench.until(({ view: here }) => here?.order?.id === id && here, `order ${id}`, LONG);
    expect(view.container?.doubts.some(({ about }) => about === 'not-proven')).toBe(!proven);
    await bench.command('back');
    await at('idle');
  }
}, 60_000);

it('a day that was promised comes in with the order; no service may be sure to keep it, and the bench says so', async () => {
  const file = await orders(
    row('P1', skus(110, 1), '+0d'),
    row('P2', skus(111, 1), '+9d'),
    row('P3', skus(112, 1), 'soon'),
    row('P4', skus(113, 1), '2020-01-02'),
    row('P5', skus(114, 1), '2030-01-02 12:00'),
  );
  expect(file.added.map(({ id }) => id)).toEqual(['P1', 'P2']);
  const expected = 'a day without a time, such as 2026-11-28, MM/DD/YYYY, DD.MM.YYYY or +3d';
  expect(file.refused).toMatchObject([
    { line: 4, column: 'arriveBy', expected, found: '"soon"' },
    {
      line: 5,
      column: 'arriveBy',
      expected: expect.stringMatching(/^\d{4}-\d\d-\d\d or later, since it may leave then$/) as string,
    },
    { line: 6, column: 'arriveBy', expected, found: '"2030-01-02 12:00"' },
  ]);
  await apply(file);
  await take('BFO-P1');
  const hopeless = await at('gather');
  expect(hopeless.order?.arriveBy).toMatch(/^\d{4}-\d\d-\d\d$/);
  expect(hopeless.container?.doubts).toContainEqual({
    about: 'promise',
    service: null,
    arriveBy: hopeless.order?.arriveBy,
  });
  await bench.command('back');
  await at('idle');
  await take('BFO-P2');
  const kept = await at('gather');
  expect(kept.container?.doubts.filter(({ about }) => about === 'promise')).toEqual([]);
  await bench.command('back');
  await at('idle');
}, 60_000);
