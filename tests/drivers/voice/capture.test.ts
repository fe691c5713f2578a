import { afterEach, expect, it } from 'vitest';
import { until } from './support.ts';
import { systemClock, type Clock } from '#drivers/clock.ts';
import { alsaCapture, Capture, type CaptureHealth } from '#drivers/voice/capture.ts';

// The programs are real processes; they write PCM as a sound card would give it.

let capture: Capture | undefined;
afterEach(() => capture?.stop());

/** A clock that stands until it is moved, and whose waits end when they are told to. */
function standing() {
  const waits = new Map<number, { readonly ms: number; readonly task: () => void }>();
  let number = 0;
  const clock = {
    time: 0,
    now: () => clock.time,
    after(ms: number, task: () => void) {
      const mine = (number += 1);
      waits.set(mine, { ms, task });
      return () => void waits.delete(mine);
    },
    waits: () => [...waits.values()].map(({ ms }) => ms),
    end(ms: number) {
      const found = [...waits].find(([, wait]) => wait.ms === ms);
      if (found === undefined) throw new Error(`nothing waits for ${String(ms)} ms`);
      waits.delete(found[0]);
      found[1].task();
    },
  };
  return clock;
}

function open(
  program: string,
  given: readonly string[],
  clock: Clock = systemClock,
  onSound: () => void = () => undefined,
) {
  const pieces: Int16Array[] = [];
  const healths: CaptureHealth[] = [];
  capture = new Capture({
    capture: { program, arguments: given },
    clock,
    onSound: (pcm) => {
      pieces.push(pcm);
      onSound();
    },
    onHealth: (health) => healths.push(health),
  });
  capture.start();
  return { capture, pieces, healths, states: () => healths.map((each) => each.state) };
}
const node = (script: string, clock?: Clock, onSound?: () => void) =>
  open(process.execPath, ['-e', script], clock, onSound);

it('gives the samples of a capture program whole, however its bytes are cut', async () => {
  const script = `
    const all = Buffer.alloc(20_002);
    for (let at = 0; at < 10_001; at++) all.writeInt16LE((at % 60_000) - 30_000, at * 2);
    let at = 0;
    const write = () => { if (at < all.length) { process.stdout.write(all.subarray(at, at + 333)); at += 333; setTimeout(write, 1); } };
    write();
    setInterval(() => undefined, 1000);`;
  const { pieces, states } = node(script);
  await until(() => pieces.reduce((sum, each) => sum + each.length, 0) === 10_001, 'all the samples');
  const heard = pieces.flatMap((each) => [...each]);
  expect(heard).toEqual(Array.from({ length: 10_001 }, (_, at) => (at % 60_000) - 30_000));
  expect(Math.max(...pieces.map((each) => each.length))).toBeLessThanOrEqual(1600);
  expect(states()).toEqual(['starting', 'working']);
});

it('starts a program again that ended, with its last words, ever more seldom', async () => {
  const clock = standing();
  const { healths } = node(`console.error('first\\nno such card'); process.exit(1)`, clock);
  for (const [restart, wait] of [500, 1000, 2000].entries()) {
    await until(() => healths.at(-1)?.restarts === restart + 1, 'its end');
    expect(healths.at(-1)).toEqual({ state: 'failed', said: 'no such card', restarts: restart + 1 });
    clock.end(wait);
  }
});

it('says that the program is not there, and looks again seldom', async () => {
  const clock = standing();
  const { states } = open('/nowhere/benchfold-capture', [], clock);
  await until(() => states().at(-1) === 'no-program', 'the state');
  expect(clock.waits()).toEqual([30_000]);
});

it('starts a program again that gives no sound', () => {
  const clock = standing();
  const { states } = node('setInterval(() => undefined, 1000)', clock);
  clock.end(3000);
  expect(states().at(-1)).toBe('no-sound');
  clock.end(500);
  expect(states().at(-1)).toBe('starting');
});

const STEADY = (value: number) => `
  const piece = Buffer.from(new Int16Array(1600).fill(${String(value)}).buffer);
  setInterval(() => process.stdout.write(piece), 5);`;

it.each([
  ['only-zeros', 100, 0],
  ['wrong-rate', 33, 500],
  ['wrong-rate', 200, 500],
] as const)('tells of %s when 1,600 samples come every %s ms', async (state, milliseconds, value) => {
  const clock = standing();
  const { states, pieces } = node(STEADY(value), clock, () => (clock.time += milliseconds));
  await until(() => states().at(-1) === state, 'the state');
  const before = pieces.length;
  expect(before).toBeLessThan(100);
});

it('is content with sound of the right rate', async () => {
  const clock = standing();
  const { states, pieces } = node(STEADY(500), clock, () => (clock.time += 100));
  await until(() => pieces.length > 100, 'ten seconds of sound');
  expect(states()).toEqual(['starting', 'working']);
});

it('gives nothing more once it is stopped, and can be started again', async () => {
  const { capture: mine, pieces, states } = node(STEADY(100));
  await until(() => pieces.length > 3, 'sound');
  mine.stop();
  const before = pieces.length;
  await new Promise((soon) => setTimeout(soon, 100));
  expect(pieces).toHaveLength(before);
  expect(states().at(-1)).toBe('off');
  mine.start();
  await until(() => pieces.length > before + 3, 'sound again');
});

it('asks ALSA’s own program for the recogniser’s form of sound', () => {
  expect(alsaCapture('plughw:1,0')).toEqual({
    program: 'arecord',
    arguments: ['-q', '-D', 'plughw:1,0', '-t', 'raw', '-f', 'S16_LE', '-r', '16000', '-c', '1'],
  });
});
