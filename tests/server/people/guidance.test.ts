import { afterEach, beforeEach, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { addPack, guidanceChoicesOf, packsOf } from '#server/store/packs.ts';
import { loadBench } from '#server/store/runs.ts';
import { commandCode, orderCode } from '#shared/codes/our-codes.ts';
import type { Command } from '#shared/run/commands.ts';
import type { Running } from '#server/server.ts';

/** An order of one shirt, in the demo. */
const ORDER = '4151';
const LUCIA = 'STAFF-LUCIA-03';
const DAY = 86_400_000;

let data: ReturnType<typeof temporaryFolder>;
let running: Running & { readonly url: string };
let bench: BenchClient;

beforeEach(async () => {
  data = temporaryFolder('guidance');
  await begin();
});

afterEach(async () => {
  bench.close();
  await running.stop();
  data.remove();
});

async function begin(at: 'idle' | 'done' = 'idle'): Promise<void> {
  running = await serverOn(CONFIG, data.path);
  bench = new BenchClient(running.url, 'bench-1');
  await bench.at(at);
}

let scans = 0;
const scan = (text: string) =>
  bench.input({ id: `guidance-${String(++scans)}-${text}`, type: 'scan', text, by: 'scan' });

async function say(command: Command): Promise<void> {
  const ack = await bench.command(command);
  if (!ack.ok) throw new Error(ack.message);
  await bench.until(({ view }) => (view?.seq ?? 0) >= ack.seq && view?.slip !== 'queued', `what follows ${command}`);
}

/** Says "next" until a task is reached; answers the tasks on the way. */
async function onTo(task: string): Promise<readonly string[]> {
  const seen: string[] = [];
  for (let guard = 0; bench.view?.task.at !== task; guard++) {
    if (guard > 80) throw new Error(`never came to ${task}: ${seen.join(' ')}`);
    seen.push(bench.view?.task.at ?? '');
    if (bench.view?.task.at === 'weigh') {
      await bench.emptyPan();
      await bench.simulate({ do: 'put-expected' });
      await bench.until(({ view }) => view?.task.at !== 'weigh' && view?.slip !== 'queued', 'the weight');
    } else await say(bench.view?.confirming === null ? 'next' : 'confirm');
  }
  return seen;
}

const kindOf = async () => {
  const { state } = await loadBench(running.store, 'bench-1');
  return state.parcels[0]!.pieces[0]!;
};

it('a badge brings its holder’s language and guidance, a clean run is kept, and a restart goes on with both', async () => {
  await scan(LUCIA);
  await bench.until(({ view }) => view?.packer?.name === 'Lucía', 'the packer');
  expect(bench.view?.language).toBe('es');
  await scan(orderCode(ORDER));
  await bench.at('gather');
  expect(bench.view?.guidance).toBe('full');
  const steps = await onTo('fill');
  expect(steps.filter((each) => each === 'fold').length).toBeGreaterThan(3);
  await onTo('done');
  const [pack, ...more] = await packsOf(running.store, 'lucia');
  expect(more).toEqual([]);
  expect(pack).toMatchObject({ person: 'lucia', mistakes: [], level: 'full', pieces: 1 });
  expect(pack?.seconds).toBeGreaterThan(0);
  bench.close();
  await running.stop();
  await begin('done');
  expect(bench.view).toMatchObject({ packer: { name: 'Lucía' }, language: 'es', guidance: null });
}, 60_000);

it('after clean packs only the key step is shown, after more only what is not as usual; by hand it comes back and stays', async () => {
  await scan(LUCIA);
  await scan(orderCode(ORDER));
  await bench.at('gather');
  const { piece, fold } = await kindOf();
  await say('back');
  await bench.at('idle');
  const packed = async (count: number, recipe: string) => {
    const from = (await packsOf(running.store, 'lucia')).length;
    for (let index = from; index < from + count; index++) {
      await addPack(running.store, {
        run: `before-${String(index)}`,
        person: 'lucia',
        kind: piece.kind,
        pieces: 1,
        recipe,
        mistakes: [],
        seconds: 200,
        level: 'full',
        at: Date.now() - DAY + index,
      });
    }
  };
  await packed(3, fold.recipe);
  await scan(orderCode(ORDER));
  await bench.at('gather');
  expect(bench.view?.guidance).toBe('brief');
  expect((await onTo('fill')).filter((each) => each === 'fold')).toHaveLength(1);
  for (let guard = 0; bench.view?.task.at !== 'idle' && guard < 8; guard++) await say('back');
  await packed(5, fold.recipe);
  await scan(orderCode(ORDER));
  await bench.at('gather');
  expect(bench.view?.guidance).toBe('quiet');
  expect((await onTo('fill')).filter((each) => each === 'fold')).toHaveLength(0);
  expect(bench.view?.task.at === 'fill' && bench.view.task.asUsual).toHaveLength(1);
  // By hand, with a command card: back among the folds, and remembered.
  await scan(commandCode('tell-more'));
  await bench.until(({ view }) => view?.task.at === 'fold' && view.task.told === 'key', 'the key step');
  expect(await guidanceChoicesOf(running.store, 'lucia')).toMatchObject([{ kind: piece.kind, level: 'brief' }]);
}, 60_000);

it('somebody without a badge is told everything, and signing off leaves the bench to nobody', async () => {
  await scan(LUCIA);
  await bench.until(({ view }) => view?.packer !== null && view?.commands.includes('sign-off'), 'the packer');
  await say('sign-off');
  expect(bench.view?.packer).toBeNull();
  expect(bench.view?.language).toBe('en');
  await scan(orderCode(ORDER));
  await bench.at('gather');
  expect(bench.view?.guidance).toBe('full');
});
