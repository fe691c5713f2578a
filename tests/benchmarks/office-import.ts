import { atMost, plain, type Figure } from './figure.ts';
import { watchedServer } from './watching.ts';
import type { ImportApplied, ImportPreview } from '#shared/wire/office.ts';
import { orderFile, pieceFile } from '#tests/support/order-file.ts';

const ROWS = 100_000;
/** after those that the store has */
const FROM = 200_000;

/** A file of 100,000 orders into a running server whose shop has 200,000: how long it takes and how it holds up the loop. */
export async function bulkImport(folder: string): Promise<Figure[]> {
  const server = await watchedServer(folder);
  const post = async <Answer>(path: string, body: string): Promise<Answer> =>
    (await (await fetch(`${server.url}/api/imports/${path}`, { method: 'POST', body })).json()) as Answer;
  try {
    const pieces = await post<ImportPreview>('pieces/preview', pieceFile(ROWS, FROM));
    await post(`${pieces.id}/apply`, '');
    const file = orderFile(ROWS, FROM);
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
    if (added !== ROWS) throw new Error(`expected ${String(ROWS)} orders to be stored, found ${String(added)}`);
    const against = `file of ${(file.length / 1e6).toFixed(1)} MB; looking through ${times.preview.toFixed(1)} s, storing ${times.apply.toFixed(1)} s`;
    const common = { bench: 'office', against };
    const loop = `looking through: p99 ${looked.delay.p99.toFixed(0)}, most ${looked.delay.most.toFixed(0)} ms; storing: p99 ${stored.delay.p99.toFixed(0)}, most ${stored.delay.most.toFixed(0)} ms`;
    return [
      atMost({
        ...common,
        name: `file of ${String(ROWS)} orders, whole import`,
        value: times.preview + times.apply,
        unit: 's',
        goal: 60,
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
      plain({
        bench: 'office',
        name: 'most memory of the server, resident',
        value: stored.most.resident,
        unit: 'MB',
        against: `before the orders' file, with as many pieces imported: ${before.toFixed(0)} MB`,
      }),
    ];
  } finally {
    await server.stop();
  }
}
