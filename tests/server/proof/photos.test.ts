import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { sweepOrphans } from '#server/proof/photo-retention.ts';
import { PhotoFiles } from '#server/proof/photo-files.ts';
import type { Ack } from '#shared/wire/events.ts';
import type { PhotoDue } from '#shared/proof/types.ts';
import type { PhotoSent, PhotoView } from '#shared/wire/proof.ts';
import type { OrderDetail, SearchAnswer } from '#shared/wire/search.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { smallJpeg } from '#tests/support/small-jpeg.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const DAY = 86_400_000;
const HOUR = 3_600_000;

let data: ReturnType<typeof temporaryFolder>;
let server: Awaited<ReturnType<typeof serverOn>>;
let bench: BenchClient;
let ahead: number;

let order: string;
/** the photos that were due while it was packed, in their order */
const due: PhotoDue[] = [];

beforeAll(async () => {
  data = temporaryFolder('photos');
  const config = copyOfConfig();
  edit(config, 'shop.yaml', /^# proof: .*$/m, 'proof: { photos: always, keepDays: 30 }');
  ahead = 0;
  server = await serverOn(config, data.path, { now: () => Date.now() + ahead });
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
  bench.socket.on('view', ({ photo }) => {
    if (photo !== undefined && JSON.stringify(due.at(-1)) !== JSON.stringify(photo)) due.push(photo);
  });
  ({ order } = await packNext(bench));
}, 40_000);
afterAll(async () => {
  bench.close();
  await server.stop();
  data.remove();
  removeConfigFolders();
});

const send = (photo: PhotoSent): Promise<Ack> => new Promise((done) => bench.socket.emit('photo', photo, done));
const get = async <Body>(path: string): Promise<Body> => (await fetch(`${server.url}${path}`)).json() as Promise<Body>;
const photosOf = (order: string) => get<readonly PhotoView[]>(`/api/orders/${order}/photos`);
const files = () =>
  existsSync(join(data.path, 'photos'))
    ? readdirSync(join(data.path, 'photos'), { recursive: true }).filter((name) => String(name).includes('.jpg'))
    : [];

it('files that no row names, and half-written ones, are taken away; a file that was changed is not shown', async () => {
  const photos = new PhotoFiles(join(data.path, 'others'));
  const orphan = await photos.put(smallJpeg(3, 3));
  mkdirSync(join(data.path, 'others', 'ab'), { recursive: true });
  writeFileSync(join(data.path, 'others', 'ab', 'abc.jpg.new'), 'half');
  expect(await sweepOrphans({ store: server.store, files: photos })).toBe(2);
  expect(await photos.read(orphan)).toBeNull();

  const name = await photos.put(smallJpeg(4, 4));
  const path = join(data.path, 'others', name.slice(0, 2), `${name}.jpg`);
  expect(readFileSync(path)).toEqual(Buffer.from(smallJpeg(4, 4)));
  writeFileSync(path, 'something else');
  expect(await photos.read(name)).toBeNull();
});
it('a photo is kept once with its order, found in the office, and removed when it was kept its time', async () => {
  expect(due.map(({ what, parcel }) => ({ what, parcel }))).toEqual([
    { what: 'packed', parcel: 1 },
    { what: 'closed', parcel: 1 },
  ]);
  const [packed, closed] = due as [PhotoDue, PhotoDue];
  const jpeg = smallJpeg(640, 480);
  const sent = { id: randomUUID(), ...packed, ago: 60_000, jpeg: Buffer.from(jpeg) };
  expect(await send(sent)).toMatchObject({ ok: true });
  expect(await send(sent)).toMatchObject({ ok: true });
  expect(await send({ id: randomUUID(), ...closed, ago: 0, missed: 'forbidden' })).toMatchObject({ ok: true });

  const photos = await photosOf(order);
  const parcel = (await get<OrderDetail>(`/api/orders/${order}`)).parcels[0];
  expect(photos).toMatchObject([
    { what: 'packed', parcel: 1, reading: parcel?.reading, is: { kept: true, width: 640, height: 480 } },
    { what: 'closed', parcel: 1, is: { kept: false, missed: 'forbidden' } },
  ]);
  expect(photos[0]?.takenAt).toBeLessThan(Date.now() - 59_000);
  const picture = await fetch(`${server.url}/api/photos/${sent.id}?download`);
  expect(picture.headers.get('content-type')).toBe('image/jpeg');
  expect(picture.headers.get('content-disposition')).toContain(`attachment; filename="${order}-1-packed.jpg"`);
  expect(new Uint8Array(await picture.arrayBuffer())).toEqual(jpeg);
  const found = await get<SearchAnswer>(`/api/search?text=${order}`);
  expect(found.groups[0]?.hits[0]).toMatchObject({ order, photos: 1 });
  expect(files()).toHaveLength(1);

  // The clock jumps to the far future: nothing goes before it has gone on there for a day.
  const look = () => server.retention.look();
  ahead = 400 * DAY;
  await look();
  expect(files()).toHaveLength(1);
  ahead += 21 * HOUR;
  await look();
  expect(files()).toHaveLength(0);
  expect((await photosOf(order))[0]?.is).toMatchObject({ kept: false, removedAt: expect.any(Number) as number });
  expect((await fetch(`${server.url}/api/photos/${sent.id}`)).status).toBe(404);
});

it('what is no photo, too large, or of a run that is not here is told and keeps no file', async () => {
  const [packed] = due as [PhotoDue];
  const junk = Buffer.from('<script>alert(1)</script>');
  expect(await send({ id: randomUUID(), ...packed, ago: 0, jpeg: junk })).toMatchObject({ ok: true });
  const large = smallJpeg(
    640,
    480,
    Array.from({ length: 400_001 }, () => 7),
  );
  expect(await send({ id: randomUUID(), ...packed, ago: 0, jpeg: Buffer.from(large) })).toMatchObject({ ok: true });
  const refused = (await photosOf(order)).filter(({ is }) => 'missed' in is && is.missed === 'not-a-photo');
  expect(refused).toHaveLength(2);
  const other = { id: randomUUID(), ...packed, run: 'another', ago: 0, jpeg: Buffer.from(smallJpeg(2, 2)) };
  expect(await send(other)).toMatchObject({ ok: false, error: 'bad-request' });
  expect(await send({ ...other, parcel: -1 })).toMatchObject({ ok: false, error: 'bad-request' });
  expect(files()).toEqual([]);
  expect((await fetch(`${server.url}/api/photos/..%2f..%2fbenchfold.db`)).status).toBe(404);
});
