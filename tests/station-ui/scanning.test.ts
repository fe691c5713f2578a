import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { CodeRead } from '#shared/codes/camera-reads.ts';
import type { CodeAnswer } from '#shared/wire/events.ts';
import { CameraError } from '#station-ui/camera/camera-trouble.ts';
import type { CodeDecoder } from '#station-ui/camera/code-decoder.ts';
import { joinedDecoder } from '#station-ui/camera/joined-decoder.ts';
import { NOT_SCANNING, Scanning } from '#station-ui/camera/scanning.ts';
import type { ScanningState } from '#station-ui/camera/scanning.ts';

const A: CodeRead = { text: 'OT-0401', symbol: 'code-128' };
const B: CodeRead = { text: '7300011000017', symbol: 'ean-upc' };
const known = (is: boolean): CodeAnswer => ({ ok: true, known: is });
const picture = {} as ImageData;

describe('two decoders as one', () => {
  const sees = (reads: readonly CodeRead[]) => ({ decode: vi.fn(() => Promise.resolve(reads)) });
  const show = async (decoder: CodeDecoder, times: number) => {
    const all: (readonly CodeRead[])[] = [];
    for (let n = 0; n < times; n++) all.push(await decoder.decode(picture));
    return all;
  };

  it('asks the turned one about every second picture in which the straight one saw nothing', async () => {
    const turned = sees([A]);
    expect(await show(joinedDecoder(sees([]), turned), 4)).toEqual([[], [A], [], [A]]);
    expect(turned.decode).toHaveBeenCalledTimes(2);
  });

  it('does not ask it where the straight one read something', async () => {
    const turned = sees([A]);
    expect(await show(joinedDecoder(sees([B]), turned), 3)).toEqual([[B], [B], [B]]);
    expect(turned.decode).not.toHaveBeenCalled();
  });

  it('goes on without it when it breaks', async () => {
    const turned = { decode: vi.fn(() => Promise.reject(new Error('broken'))) };
    expect(await show(joinedDecoder(sees([]), turned), 6)).toEqual([[], [], [], [], [], []]);
    expect(turned.decode).toHaveBeenCalledTimes(1);
    expect(await show(joinedDecoder(sees([]), null), 1)).toEqual([[]]);
  });
});

describe('the camera as a scanner', () => {
  let state: ScanningState;
  let inSight: readonly CodeRead[];
  let answer: CodeAnswer | null;
  let taken: string[];
  let asked: string[];
  let closed: string[];
  let lost: () => void;
  let scanning: Scanning;
  const torch = vi.fn(() => Promise.resolve());
  const open = vi.fn((whenLost: () => void) => {
    lost = whenLost;
    return Promise.resolve({ stream: {} as MediaStream, torch, close: () => closed.push('camera') });
  });
  const decoder = vi.fn(() =>
    Promise.resolve({ turned: true, decode: () => Promise.resolve(inSight), close: () => closed.push('decoder') }),
  );

  beforeEach(() => {
    vi.useFakeTimers();
    state = NOT_SCANNING;
    inSight = [];
    answer = known(true);
    [taken, asked, closed] = [[], [], []];
    scanning = new Scanning({
      open,
      decoder,
      picture: () => picture,
      ask: (text) => {
        asked.push(text);
        return Promise.resolve(answer);
      },
      take: (text) => taken.push(text),
      changed: (now) => (state = now),
    });
  });

  afterEach(() => {
    void scanning.turn(false);
    vi.useRealTimers();
    vi.clearAllMocks();
  });

  const hold = async (reads: readonly CodeRead[], ms = 500) => {
    inSight = reads;
    await vi.advanceTimersByTimeAsync(ms);
  };

  it('takes what the open work knows, once, and again after it was away', async () => {
    void scanning.turn(true);
    await hold([A], 3000);
    expect(taken).toEqual(['OT-0401']);
    expect(state).toMatchObject({
      phase: 'looking',
      seen: { text: 'OT-0401', outcome: 'taken' },
      counts: { taken: 1 },
    });
    await hold([], 2500);
    await hold([A]);
    expect(taken).toEqual(['OT-0401', 'OT-0401']);
  });

  it('shows and counts what no open work knows, takes nothing, and forgets it when it is gone', async () => {
    answer = known(false);
    void scanning.turn(true);
    await hold([B], 2000);
    expect([taken, asked]).toEqual([[], ['7300011000017']]);
    expect(state).toMatchObject({ seen: { outcome: 'not-known' }, counts: { taken: 0, notKnown: 1 } });
    await hold([], 6000);
    expect(state.seen).toBeNull();
  });

  it('asks again about a code in sight when the run has moved on', async () => {
    answer = known(false);
    void scanning.turn(true);
    await hold([A]);
    answer = known(true);
    await hold([A]);
    expect(taken).toEqual([]);
    scanning.moved();
    await hold([A]);
    expect(taken).toEqual(['OT-0401']);
  });

  it('takes nothing while the server cannot be asked, and the code in sight as soon as it can', async () => {
    answer = null;
    void scanning.turn(true);
    await hold([A]);
    expect(state.seen?.outcome).toBe('not-asked');
    expect(taken).toEqual([]);
    answer = known(true);
    await hold([A]);
    expect(taken).toEqual(['OT-0401']);
  });

  it('a text that the server does not take at all is none of ours', async () => {
    answer = { ok: false, error: 'bad-request', message: 'too long' };
    void scanning.turn(true);
    await hold([A], 2000);
    expect(asked).toHaveLength(1);
    expect(state.seen?.outcome).toBe('not-known');
  });

  it('counts the reads that no second picture confirmed', async () => {
    void scanning.turn(true);
    await hold([B], 60);
    await hold([], 2000);
    expect([asked, state.counts.unconfirmed]).toEqual([[], 1]);
  });

  it('lets go of the camera when it is switched off, out of sight, pulled out, or its reader breaks', async () => {
    void scanning.turn(true);
    await hold([]);
    scanning.rest(true);
    expect([closed, state.phase, state.on]).toEqual([['camera', 'decoder'], 'off', true]);
    scanning.rest(false);
    await hold([A]);
    expect([state.phase, taken]).toEqual(['looking', ['OT-0401']]);
    lost();
    expect(state).toMatchObject({ on: false, trouble: 'unplugged', stream: null });
    expect(closed).toHaveLength(4);
    decoder.mockImplementationOnce(() => Promise.reject(new CameraError('decoder')));
    void scanning.turn(true);
    await hold([]);
    expect(state).toMatchObject({ on: false, trouble: 'decoder' });
    expect(closed).toHaveLength(5);
    void scanning.turn(true);
    await hold([]);
    void scanning.turn(false);
    expect(state).toMatchObject({ on: false, phase: 'off', trouble: null, counts: { taken: 1 } });
    expect(closed).toHaveLength(7);
  });

  it('a camera that comes after it was switched off again is let go at once', async () => {
    void scanning.turn(true);
    void scanning.turn(false);
    await hold([A]);
    expect([closed, taken, state.phase]).toEqual([['camera'], [], 'off']);
  });

  it('offers the light only where the camera has one, and no more when it fails', async () => {
    void scanning.turn(true);
    await hold([]);
    expect(state.light).toBe('off');
    await scanning.switchLight();
    expect([state.light, torch.mock.calls]).toEqual(['on', [[true]]]);
    torch.mockImplementationOnce(() => Promise.reject(new Error('none')));
    await scanning.switchLight();
    expect(state.light).toBe('none');
  });
});
