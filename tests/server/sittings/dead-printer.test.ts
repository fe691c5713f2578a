import { afterAll, beforeAll, expect, it } from 'vitest';
import { cueOf } from '#shared/voice/cue.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';

const data = temporaryFolder('dead-printer');
let server: ServerProcess;
let hands: BenchClient;

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  hands = new BenchClient(server.url, 'bench-1');
  await hands.at('idle');
});

afterAll(async () => {
  hands.close();
  await server.stop();
  data.remove();
});

/** Presses on until the order is to be weighed. */
async function toWeigh(): Promise<void> {
  for (let guard = 0; guard < 40 && hands.view?.task.at !== 'weigh'; guard++) {
    const seq = hands.view?.seq ?? 0;
    await hands.command('next');
    await hands.until(({ view }) => (view?.seq ?? 0) > seq, 'the next step');
  }
}

const slip = (state: string) => hands.until(({ view }) => view?.slip === state && view, `a slip that is ${state}`);

it('an order is finished beside a printer without paper and a scale that creeps and is unplugged, and all of it is told', async () => {
  await toWeigh();
  await hands.simulate({ do: 'paper', state: 'out' });
  await hands.simulate({ do: 'drift', mass: '0.3 oz' });
  await hands.until(({ live }) => live?.needsZeroing, 'the word that the zero has moved');
  // Creeping on, it is more than any pan is off: judged, but never by itself.
  await hands.simulate({ do: 'drift', mass: '0.6 oz' });
  await hands.until(({ view }) => view?.task.at === 'decide' && view.task.because === 'mismatch', 'a doubt');
  expect(hands.view?.slip).toBe('none');
  await hands.command('zero-scale');
  await hands.at('weigh');
  // A scale takes no zero while its pan is touched.
  await hands.until(({ live }) => live?.reading?.mass === 0, 'the zero');
  await hands.emptyPan();

  await hands.simulate({ do: 'unplug', device: 'scale' });
  await hands.until(({ live }) => live?.reading === null, 'no reading any more');
  await hands.simulate({ do: 'plug', device: 'scale' });
  await hands.emptyPan();
  await hands.simulate({ do: 'put-expected' });
  await hands.until(({ view }) => view?.task.at === 'seal' || view?.task.at === 'decide', 'a verdict');
  if (hands.view?.task.at === 'decide') {
    await hands.command('pay-next-bracket');
    await hands.command('confirm');
  }
  await hands.at('seal');
  expect((await slip('failed')).notice?.code).toBe('print-failed');

  // Nobody prints it twice by mistake: it is asked first, and the printer is still empty.
  await hands.command('print-again');
  await hands.until(({ view }) => view?.confirming?.command === 'print-again', 'the question');
  await hands.command('cancel');
  await hands.command('next');
  await hands.at('label');
  await hands.simulate({ do: 'scan', text: await hands.offered('the label') });
  const done = await hands.at('done');
  expect(done.slip).toBe('failed');
  expect(cueOf(done).full).toContain('The slip did not print.');

  await hands.simulate({ do: 'paper', state: 'ok' });
  await hands.command('print-again');
  await hands.until(({ view }) => view?.confirming?.command === 'print-again', 'the question again');
  await hands.command('confirm');
  const printed = await slip('printed');
  expect(cueOf(printed).full).not.toContain('did not print');
  await hands.until(({ offers }) => offers?.slips.length === 1, 'one slip and no other');
}, 60_000);
