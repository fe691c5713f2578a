import { cpSync } from 'node:fs';
import { atMost, plain, type Figure } from './figure.ts';
import { watchedServer, type Seen } from './watching.ts';
import type { ImportApplied, ImportPreview } from '#shared/wire/office.ts';
import { orderFile, pieceFile } from '#tests/support/order-file.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const ROWS = 100_000;
const FEW_ROWS = 10_000;
/** after those that the store has */
const FROM = 200_000;

interface Imported {
  /** of the file of orders, in MB */
  readonly size: number;
  /** in s */
  readonly times: { readonly preview: number; readonly apply: number };
  readonly looked: Seen;
  readonly stored: Seen;
  /** the most that the server ever held when it had started, and before the orders' file came, in MB */
  readonly started: number;
  readonly before: number;
}

/** A file of 100,000 orders into a running server whose shop has 200,000: how long it takes, what it holds, how it holds up the loop. */
export async function bulkImport(folder: string): Promise<Figure[]> {
  const few = await onCopy(folder, (copy) => imported(copy, FEW_ROWS));
  const { size, times, looked, stored, started, before } = await onCopy(folder, (copy) => imported(copy, ROWS));
  const against = `file of ${size.toFixed(1)} MB; looking through ${times.preview.toFixed(1)} s, storing ${times.apply.toFixed(1)} s`;
  const loop = `looking through: p99 ${looked.delay.p99.toFixed(0)}, most ${looked.delay.most.toFixed(0)} ms; storing: p99 ${stored.delay.p99.toFixed(0)}, most ${stored.delay.most.toFixed(0)} ms`;
  const resident = stored.most.resident;
  const held = `once started: ${started.toFixed(0)} MB; as many pieces were imported by it before: ${before.toFixed(0)} MB; a file of ${String(FEW_ROWS)}: ${few.stored.most.resident.toFixed(0)} MB`;
  return [
    atMost({
      bench: 'office',
      name: `file of ${String(ROWS)} orders, whole import`,
      value: times.preview + times.apply,
      unit: 's',
      goal: 60,
      against,
    }),
    atMost({
      bench: 'office',
      name: "server's loop held up meanwhile, p99",
      value: Math.max(looked.delay.p99, stored.delay.p99),
      unit: 'ms',
      goal: 50,
      against: loop,
    }),
    plain({
      bench: 'office',
      name: 'the same, most',
      value: Math.max(looked.delay.most, stored.delay.most),
      unit: 'ms',
      against: loop,
    }),
    atMost({
      bench: 'office',
      name: 'most resident memory of the server',
      value: resident,
      unit: 'MB',
      goal: 400,
      against: held,
    }),
    atMost({
      bench: 'office',
      name: `of that, more than a file of ${String(FEW_ROWS)} orders takes`,
      value: resident - few.stored.most.resident,
      unit: 'MB',
      goal: 100,
      against: held,
    }),
  ];
}

/** Each begins with the same shop. */
async function onCopy<Done>(folder: string, work: (copy: string) => Promise<Done>): Promise<Done> {
  const copy = temporaryFolder('office-import');
  try {
    cpSync(folder, copy.path, { recursive: true });
    return await work(copy.path);
  } finally {
    copy.remove();
  }
}

/** Pieces and then orders into a server that has just started. */
async function imported(folder: string, rows: number): Promise<Imported> {
  const server = await watchedServer(folder);
  const post = async <Answer>(path: string, body: string): Promise<Answer> =>
    (await (await fetch(`${server.url}/api/imports/${path}`, { method: 'POST', body })).json()) as Answer;
  try {
    const started = await server.memory();
    const pieces = await post<ImportPreview>('pieces/preview', pieceFile(rows, FROM));
    await post(`${pieces.id}/apply`, '');
    const file = orderFile(rows, FROM);
    const times = { preview: 0, apply: 0 };
    const answers: { preview?: ImportPreview; applied?: ImportApplied } = {};
    const before = await server.memory();
    const looked = await server.while(async () => {
      const begun = performance.now();
      answers.preview = await post<ImportPreview>('orders/preview', file);
      times.preview = (performance.now() - begun) / 1000;
    });
    const stored = await server.while(async () => {
      const begun = performance.now();
      answers.applied = await post<ImportApplied>(`${answers.preview?.id ?? ''}/apply`, '');
      times.apply = (performance.now() - begun) / 1000;
    });
    const added = answers.applied?.added ?? 0;
    if (added !== rows) throw new Error(`expected ${String(rows)} orders to be stored, found ${String(added)}`);
    return { size: file.length / 1e6, times, looked, stored, started, before };
  } finally {
    await server.stop();
  }
}
