import type { StoreOrTransaction } from './open.ts';

/** A file of the shop as it was last taken. */
export interface TakenFile {
  readonly file: string;
  /** SHA-256 of the whole text */
  readonly digest: string;
  readonly salt: string;
  /** a digest of what each key says */
  readonly keys: Readonly<Record<string, string>>;
}

export async function takenFiles(store: StoreOrTransaction): Promise<readonly TakenFile[]> {
  const rows = await store.selectFrom('shop_file').selectAll().orderBy('file').execute();
  return rows.map((row) => ({ ...row, keys: JSON.parse(row.keys) as Record<string, string> }));
}

/** These are the files now; others are forgotten. */
export async function saveTakenFiles(store: StoreOrTransaction, files: readonly TakenFile[]): Promise<void> {
  const names = files.map(({ file }) => file);
  await store
    .deleteFrom('shop_file')
    .$if(names.length > 0, (query) => query.where('file', 'not in', names))
    .execute();
  for (const { file, digest, salt, keys } of files) {
    const said = { digest, salt, keys: JSON.stringify(keys) };
    await store
      .insertInto('shop_file')
      .values({ file, ...said })
      .onConflict((conflict) => conflict.column('file').doUpdateSet(said))
      .execute();
  }
}
