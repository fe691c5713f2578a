import type { StoreOrTransaction } from './open.ts';
import type { IncomingFile } from '#shared/wire/incoming.ts';

type Facts = Omit<IncomingFile, 'id' | 'name' | 'movedTo' | 'state' | 'at'>;

/** A file of the watched folder as it is stored: with what is in it, and whether it was moved yet. */
export interface StoredIncoming extends IncomingFile {
  readonly digest: string;
  readonly moved: boolean;
}

/** Stores what became of a file, before it is moved. */
export async function addIncoming(
  store: StoreOrTransaction,
  file: Omit<StoredIncoming, 'id' | 'moved'>,
): Promise<void> {
  const { name, digest, state, movedTo, at, subject, source, counts, problems } = file;
  const facts: Facts = { subject, source, counts, problems };
  await store
    .insertInto('incoming_file')
    .values({ name, digest, state, moved_to: movedTo, moved: 0, body: JSON.stringify(facts), at })
    .execute();
}

/** What is known of files with this content. */
export async function incomingByDigest(store: StoreOrTransaction, digest: string): Promise<readonly StoredIncoming[]> {
  const rows = await store.selectFrom('incoming_file').selectAll().where('digest', '=', digest).orderBy('id').execute();
  return rows.map(fromRow);
}

/** Files that are known and were not moved yet when the server stopped. */
export async function unmovedIncoming(store: StoreOrTransaction): Promise<readonly StoredIncoming[]> {
  const rows = await store.selectFrom('incoming_file').selectAll().where('moved', '=', 0).execute();
  return rows.map(fromRow);
}

/** The newest first. */
export async function newestIncoming(store: StoreOrTransaction, most: number): Promise<readonly StoredIncoming[]> {
  const rows = await store.selectFrom('incoming_file').selectAll().orderBy('id', 'desc').limit(most).execute();
  return rows.map(fromRow);
}

export async function moveElsewhere(store: StoreOrTransaction, id: number, movedTo: string): Promise<void> {
  await store.updateTable('incoming_file').set({ moved_to: movedTo }).where('id', '=', id).execute();
}

/** A bench took some of its orders while it was stored. */
export async function noteCounts(store: StoreOrTransaction, digest: string, counts: Facts['counts']): Promise<void> {
  const newest = (await incomingByDigest(store, digest)).at(-1);
  if (newest === undefined) return;
  const { subject, source, problems } = newest;
  const facts: Facts = { subject, source, counts, problems };
  await store
    .updateTable('incoming_file')
    .set({ body: JSON.stringify(facts) })
    .where('id', '=', newest.id)
    .execute();
}

export async function noteMoved(store: StoreOrTransaction, id: number): Promise<void> {
  await store.updateTable('incoming_file').set({ moved: 1 }).where('id', '=', id).execute();
}

interface Row {
  readonly id: number;
  readonly name: string;
  readonly digest: string;
  readonly state: IncomingFile['state'];
  readonly moved_to: string;
  readonly moved: number;
  readonly body: string;
  readonly at: number;
}

function fromRow({ id, name, digest, state, moved_to, moved, body, at }: Row): StoredIncoming {
  return { id, name, digest, state, movedTo: moved_to, moved: moved === 1, at, ...(JSON.parse(body) as Facts) };
}
