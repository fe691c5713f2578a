import { expect, it } from 'vitest';
import { Gate, GATE, type GateOutcome } from '#drivers/voice/gate.ts';
import { clippedShare, FRAME, FRAME_MS, Framer, levelOf } from '#drivers/voice/sound.ts';

/** A frame of a tone at a level in dB below full scale. */
function tone(db: number): Int16Array {
  const peak = 32_767 * 10 ** (db / 20);
  return Int16Array.from({ length: FRAME }, (_, index) => Math.round(peak * Math.sin(index * 0.4)));
}
const frames = (ms: number, db: number) => Array.from({ length: Math.ceil(ms / FRAME_MS) }, () => tone(db));

function outcomes(gate: Gate, sound: readonly Int16Array[], voice: (frame: Int16Array) => boolean | null = () => null) {
  return sound.map((frame) => gate.push(frame, voice(frame))).filter((each): each is GateOutcome => each !== null);
}

it('measures a full sine as 0 dB and silence as -100', () => {
  expect(levelOf(tone(0))).toBeCloseTo(0, 1);
  expect(levelOf(tone(-40))).toBeCloseTo(-40, 0);
  expect(levelOf(new Int16Array(FRAME))).toBe(-100);
});

it('cuts one utterance with a little of what was before it', () => {
  const found = outcomes(new Gate(), [...frames(1500, -60), ...frames(900, -25), ...frames(800, -60)]);
  expect(found.map((each) => each.type)).toEqual(['utterance']);
  const [utterance] = found;
  if (utterance?.type !== 'utterance') throw new Error('no utterance');
  const ms = (utterance.pcm.length / FRAME) * FRAME_MS;
  expect(ms).toBeGreaterThan(900 + GATE.preRollMs);
  expect(ms).toBeLessThan(900 + GATE.preRollMs + GATE.hangOverMs + 3 * FRAME_MS);
});

it('shows what was said so far once in each pause, and goes on', () => {
  const gate = new Gate();
  const sound = [
    ...frames(1500, -60),
    ...frames(600, -25),
    ...frames(250, -60),
    ...frames(500, -25),
    ...frames(800, -60),
  ];
  const pauses: number[] = [];
  const found = sound.flatMap((frame) => {
    const outcome = gate.push(frame, null);
    const paused = gate.paused();
    if (paused !== null) pauses.push(paused.length);
    return outcome === null ? [] : [outcome];
  });
  expect(found.map((each) => each.type)).toEqual(['utterance']);
  expect(pauses).toHaveLength(2);
  expect(pauses[1]).toBeGreaterThan(pauses[0] ?? 0);
  const [utterance] = found;
  const rest = utterance?.type === 'utterance' ? utterance.pcm.length - (pauses[1] ?? 0) : 0;
  expect((rest / FRAME) * FRAME_MS).toBe(GATE.hangOverMs - GATE.pauseMs);
});

it.each([-70, -50, -35])('finds the floor of a room at %s dB and what stands 20 dB above it', (floor) => {
  const found = outcomes(new Gate(), [...frames(2000, floor), ...frames(700, floor + 20), ...frames(800, floor)]);
  expect(found.filter((each) => each.type === 'utterance')).toHaveLength(1);
});

it('rejects a monologue once and holds little of it', () => {
  const gate = new Gate();
  const found = outcomes(gate, frames(1000, -60));
  for (let minute = 0; minute < 10; minute++) found.push(...outcomes(gate, frames(6000, -20), () => true));
  expect(found).toEqual([{ type: 'rejected', why: 'too-long' }]);
  expect(gate.open).toBe(false);
});

it('listens again after a monologue has ended', () => {
  const gate = new Gate();
  outcomes(gate, [...frames(1000, -60), ...frames(5000, -20), ...frames(600, -60)], (frame) => levelOf(frame) > -40);
  const found = outcomes(gate, [...frames(900, -20), ...frames(600, -60)], (frame) => levelOf(frame) > -40);
  expect(found.map((each) => each.type)).toEqual(['utterance']);
});

it('rejects a knock and a microphone turned up too far', () => {
  const found = outcomes(new Gate(), [...frames(1000, -60), ...frames(60, -20), ...frames(800, -60)]);
  expect(found).toEqual([{ type: 'rejected', why: 'too-short' }]);
  const square = frames(700, 0).map((frame) => frame.map((sample) => (sample > 0 ? 32_767 : -32_768)));
  expect(clippedShare(square[0] ?? new Int16Array())).toBe(1);
  expect(outcomes(new Gate(), [...frames(1000, -60), ...square, ...frames(800, -60)])).toEqual([
    { type: 'rejected', why: 'clipped' },
  ]);
});

it('lets no noise through that the speech model calls no voice, however loud', () => {
  const tape = [...frames(1000, -60), ...frames(900, -6), ...frames(800, -60)];
  expect(outcomes(new Gate(), tape, () => false)).toEqual([]);
});

it('tells of a voice that stays too low for a phrase’s length, once', () => {
  const gate = new Gate();
  outcomes(gate, frames(2000, -50), () => false);
  const murmur = [...frames(800, -48.5), ...frames(300, -50)];
  const found = outcomes(gate, murmur, (frame) => levelOf(frame) > -49.5);
  expect(found).toEqual([{ type: 'rejected', why: 'too-quiet' }]);
});

it('gives nothing for silence', () => {
  expect(outcomes(new Gate(), frames(30_000, -100))).toEqual([]);
});

it('cuts any pieces into whole frames without losing a sample', () => {
  const framer = new Framer();
  const all = Int16Array.from({ length: FRAME * 3 + 7 }, (_, index) => index);
  const got: number[] = [];
  for (let at = 0; at < all.length; at += 100) {
    for (const frame of framer.push(all.subarray(at, at + 100))) got.push(...frame);
  }
  expect(got).toEqual([...all.subarray(0, FRAME * 3)]);
});
