import { jpegSize } from './jpeg.ts';
import type { PhotoFiles } from './photo-files.ts';
import type { Clock } from '#server/clock.ts';
import { TAKEN_OUT } from '#server/privacy/scrub.ts';
import type { Store } from '#server/store/open.ts';
import { findOrder } from '#server/store/orders.ts';
import { addPhoto, markPhotosRemoved, photoById } from '#server/store/photos.ts';
import { PHOTO_TAKEN_BYTES } from '#shared/proof/types.ts';
import type { PhotoSent } from '#shared/wire/proof.ts';

export type KeptPhoto = 'kept' | 'kept-before' | 'missed' | 'removed' | 'unknown-run';

interface Parts {
  readonly store: Store;
  readonly files: PhotoFiles;
  readonly clock: Clock;
}

/**
 * Keeps a photo of a run at a bench, or the reason why there is none: its file first, then its row. Of one id only the first
 * counts. What is no JPEG, or too large a one, is kept as missed.
 * @param here the run that is at the bench now, and who stands there
 * @throws when the disk or the store fails; then it can be sent again
 */
export async function keepPhoto(
  { store, files, clock }: Parts,
  bench: string,
  here: { readonly run: string | null; readonly packer: string | null },
  sent: PhotoSent,
): Promise<KeptPhoto> {
  const run = await store.selectFrom('run').selectAll().where('id', '=', sent.run).executeTakeFirst();
  if (run?.bench !== bench) return 'unknown-run';
  if ((await photoById(store, sent.id)) !== null) return 'kept-before';
  // It waited at a tablet while whoever it shows the address of was taken out.
  if (await isTakenOut(store, run.order_id)) {
    const { id, parcel, what, ago } = sent;
    const [now, none] = [clock.now(), { file: null, bytes: null, width: null, height: null, missed: null }];
    const of = { order_id: run.order_id, run: run.id, bench, person: run.packer };
    await addPhoto(store, { id, parcel, what, ...of, ...none, taken_at: now - ago, came_at: now, removed_at: now });
    return 'removed';
  }
  const bytes = 'jpeg' in sent ? sent.jpeg : null;
  const size = bytes === null || bytes.length > PHOTO_TAKEN_BYTES ? null : jpegSize(bytes);
  const file = bytes === null || size === null ? null : await files.put(bytes);
  const now = clock.now();
  const added = await addPhoto(store, {
    id: sent.id,
    order_id: run.order_id,
    run: run.id,
    parcel: sent.parcel,
    what: sent.what,
    bench,
    person: here.run === run.id ? here.packer : run.packer,
    taken_at: now - sent.ago,
    came_at: now,
    file,
    bytes: file === null ? null : (bytes?.length ?? null),
    width: size?.width ?? null,
    height: size?.height ?? null,
    missed: file !== null ? null : 'missed' in sent ? sent.missed : 'not-a-photo',
    removed_at: null,
  });
  if (!added) return 'kept-before';
  if (file !== null && (await isTakenOut(store, run.order_id))) {
    const { files: gone } = await markPhotosRemoved(store, { orders: [run.order_id] }, now);
    for (const each of gone) await files.remove(each);
    return 'removed';
  }
  return file === null ? 'missed' : 'kept';
}

const isTakenOut = async (store: Store, order: string): Promise<boolean> =>
  (await findOrder(store, order))?.order.buyer === TAKEN_OUT;
