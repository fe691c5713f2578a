import { expect, it, vi } from 'vitest';
import type { PhotoDue, PhotoTrouble } from '#shared/proof/types.ts';
import type { Ack } from '#shared/wire/events.ts';
import type { PhotoSent } from '#shared/wire/proof.ts';
import type { Eye } from '#station-ui/proof/eye.ts';
import { MOST_WAITING, PhotoOutbox } from '#station-ui/proof/photo-outbox.ts';
import { memoryShelf } from '#station-ui/proof/photo-shelf.ts';
import type { WithoutAgo } from '#station-ui/proof/photo-shelf.ts';
import { Photographer } from '#station-ui/proof/photographer.ts';
import type { PhotoState } from '#station-ui/proof/photographer.ts';

const PACKED: PhotoDue = { run: 'r', parcel: 1, what: 'packed' };
const CLOSED: PhotoDue = { run: 'r', parcel: 1, what: 'closed' };
const JPEG = Uint8Array.of(1, 2, 3);
const soon = () => new Promise((resolve) => setTimeout(resolve, 0));

function studio(open: (lost: () => void) => Promise<Eye | PhotoTrouble>, done = new Set<string>()) {
  const states: PhotoState[] = [];
  const kept: WithoutAgo[] = [];
  const waits: (() => void)[] = [];
  const photographer = new Photographer({
    open,
    id: () => `photo-${String(kept.length)}`,
    keep: (photo) => Promise.resolve(kept.push(photo) > 0),
    wait: () => new Promise<void>((resolve) => waits.push(resolve)),
    changed: (state) => states.push(state),
    sound: vi.fn(),
    memory: { has: (key) => done.has(key), add: (key) => done.add(key) },
  });
  /** Lets the time pass that anything waits for. */
  const pass = async (turns = 1) => {
    for (let turn = 0; turn < turns; turn++) {
      await soon();
      for (const go of waits.splice(0)) go();
      await soon();
    }
  };
  return { photographer, states, kept, pass, phase: () => states.at(-1)?.phase };
}
const eye = (close = vi.fn()): Eye => ({
  stream: {} as MediaStream,
  snap: () => Promise.resolve(JPEG),
  close,
});

it('counts from three, takes the photo once, and lets go of the camera', async () => {
  const close = vi.fn();
  const done = new Set<string>();
  const { photographer, states, kept, pass } = studio(() => Promise.resolve(eye(close)), done);
  void photographer.seen(PACKED);
  await soon();
  void photographer.seen({ ...PACKED });
  await pass(3);
  expect(states.map(({ phase, seconds }) => `${phase} ${String(seconds)}`)).toEqual([
    'opening 0',
    'counting 3',
    'counting 2',
    'counting 1',
    'taken 0',
  ]);
  expect(kept).toEqual([{ id: 'photo-0', ...PACKED, jpeg: JPEG }]);
  expect(close).toHaveBeenCalledOnce();
  await photographer.seen(null);
  await photographer.seen(PACKED);
  expect(kept).toHaveLength(1);

  const reloaded = studio(() => Promise.resolve(eye()), done);
  await reloaded.photographer.seen(PACKED);
  expect(reloaded.kept).toEqual([]);
});

it('a packer who goes on is photographed at that moment, and the next photo follows', async () => {
  const { photographer, kept, pass } = studio(() => Promise.resolve(eye()));
  void photographer.seen(PACKED);
  await soon();
  await photographer.seen(null);
  expect(kept).toEqual([{ id: 'photo-0', ...PACKED, jpeg: JPEG }]);
  void photographer.seen(CLOSED);
  await pass(3);
  expect(kept[1]).toMatchObject({ what: 'closed', jpeg: JPEG });
});

it.each<PhotoTrouble>(['forbidden', 'none-found', 'page-not-secure', 'no-picture'])(
  'a camera that is %s is told and kept as missed; asked again it may work',
  async (trouble) => {
    let answer: Eye | PhotoTrouble = trouble;
    const { photographer, states, kept, pass } = studio(() => Promise.resolve(answer));
    await photographer.seen(PACKED);
    expect(states.at(-1)).toMatchObject({ phase: 'missed', trouble });
    expect(kept).toEqual([{ id: 'photo-0', ...PACKED, missed: trouble }]);
    answer = eye();
    void photographer.again();
    await pass(3);
    expect(kept[1]).toMatchObject({ jpeg: JPEG });
  },
);

it('a browser that never answers, and a camera that is pulled out while counting, are missed too', async () => {
  const never = studio(() => new Promise(() => undefined));
  void never.photographer.seen(PACKED);
  await never.pass();
  expect(never.kept).toEqual([{ id: 'photo-0', ...PACKED, missed: 'no-picture' }]);

  let pulled: () => void = () => undefined;
  const out = studio((lost) => {
    pulled = lost;
    return Promise.resolve(eye());
  });
  void out.photographer.seen(PACKED);
  await soon();
  pulled();
  await out.pass(4);
  expect(out.kept).toEqual([{ id: 'photo-0', ...PACKED, missed: 'unplugged' }]);
});

it('a camera that opens after its time is let go of', async () => {
  const close = vi.fn();
  let opened: (eye: Eye) => void = () => undefined;
  const { photographer, kept, pass } = studio(() => new Promise((resolve) => (opened = resolve)));
  void photographer.seen(PACKED);
  await pass();
  opened(eye(close));
  await soon();
  expect(close).toHaveBeenCalledOnce();
  expect(kept).toHaveLength(1);
});

const photo = (id: string): WithoutAgo => ({ id, ...PACKED, jpeg: JPEG });

function outbox(answers: (Ack | null)[]) {
  const sent: PhotoSent[] = [];
  const told: number[] = [];
  let now = 1000;
  const box = new PhotoOutbox({
    bench: 'bench-1',
    shelf: memoryShelf(),
    send: (each) => {
      sent.push(each);
      return Promise.resolve(answers.length > 0 ? (answers.shift() ?? null) : { ok: true, seq: 1 });
    },
    now: () => now,
    wait: () => soon().then(() => undefined),
    changed: (waiting) => told.push(waiting),
  });
  return { box, sent, told, later: (ms: number) => (now += ms) };
}
const settle = async () => {
  for (let turn = 0; turn < 12; turn++) await soon();
};

it('what is taken without a link is delivered later, in order, each until it is acknowledged, with its age', async () => {
  const { box, sent, told, later } = outbox([
    null,
    { ok: false, error: 'store-failed', message: '' },
    { ok: false, error: 'signed-out', message: '' },
  ]);
  await box.add(photo('one'));
  later(5000);
  await box.add(photo('two'));
  await settle();
  expect(sent).toEqual([]);
  expect(told.at(-1)).toBe(2);
  box.link(true);
  await settle();
  expect(sent.map(({ id, ago }) => [id, ago])).toEqual([
    ['one', 5000],
    ['one', 5000],
    ['one', 5000],
    ['one', 5000],
    ['two', 0],
  ]);
  expect(told.at(-1)).toBe(0);
});

it('what the station will never take is not sent for ever', async () => {
  const { box, sent, told } = outbox([{ ok: false, error: 'bad-request', message: '' }]);
  box.link(true);
  await box.add(photo('one'));
  await box.add(photo('two'));
  await settle();
  expect(sent.map(({ id }) => id)).toEqual(['one', 'two']);
  expect(told.at(-1)).toBe(0);
});

it('a full tablet keeps that there was a photo, and says so', async () => {
  const { box, sent } = outbox([]);
  for (let count = 0; count < MOST_WAITING; count++) expect(await box.add(photo(`photo-${String(count)}`))).toBe(true);
  expect(await box.add(photo('too-many'))).toBe(false);
  box.link(true);
  await vi.waitFor(() => expect(sent).toHaveLength(MOST_WAITING + 1));
  expect(sent.find(({ id }) => id === 'too-many')).toMatchObject({ missed: 'tablet-full' });
});
