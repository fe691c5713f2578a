import { randomBytes } from 'node:crypto';
import type { Logger } from 'pino';
import { changedKeys, keyDigests, keysTold } from './changed-keys.ts';
import type { Clock } from '#server/clock.ts';
import { digestOf } from '#server/office/settings/digest.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { recordChange } from '#server/store/changes.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { saveTakenFiles, takenFiles, type TakenFile } from '#server/store/shop-files.ts';

interface Parts {
  readonly store: Store;
  readonly shops: Pick<ShopHolder, 'texts' | 'onChange'>;
  readonly clock: Clock;
  readonly log: Logger;
}

type Texts = ShopHolder['texts'];

/**
 * Keeps in the record of changes which files of the shop, and which of their keys, were changed while no server ran, and from
 * then on what the files are: by digests alone, since some of what they say is as good as a key.
 */
export async function followShopFiles({ store, shops, clock, log }: Parts): Promise<void> {
  await inTransaction(store, async (transaction) => {
    const before = await takenFiles(transaction);
    if (before.length > 0) await recordChanges(transaction, before, shops.texts, clock.now());
    await saveTakenFiles(transaction, await taken(transaction, shops.texts));
  });
  let saving: Promise<void> = Promise.resolve();
  shops.onChange(() => {
    const { texts } = shops;
    saving = saving
      .then(() =>
        inTransaction(store, async (transaction) => saveTakenFiles(transaction, await taken(transaction, texts))),
      )
      .catch((error: unknown) => log.error({ error }, 'what the shop’s files are could not be kept'));
  });
}

async function recordChanges(
  transaction: StoreOrTransaction,
  before: readonly TakenFile[],
  texts: Texts,
  now: number,
): Promise<void> {
  const known = new Map(before.map((each) => [each.file, each]));
  for (const file of [...new Set([...known.keys(), ...texts.keys()])].sort()) {
    const [was, text] = [known.get(file), texts.get(file)];
    if (was?.digest === digestOf(text ?? null)) continue;
    const details = {
      while: 'stopped',
      ...(was === undefined
        ? { file: 'added' }
        : text === undefined
          ? { file: 'removed' }
          : keysTold(changedKeys(was.keys, keyDigests(file, text, was.salt)))),
    };
    await recordChange(
      transaction,
      { what: 'settings-by-hand', about: file, who: null, from: 'station', details },
      now,
    );
  }
}

/** A file that is as it was keeps its digests: those of a long price list take some time. */
async function taken(transaction: StoreOrTransaction, texts: Texts): Promise<readonly TakenFile[]> {
  const known = new Map((await takenFiles(transaction)).map((each) => [each.file, each]));
  return [...texts].map(([file, text]) => {
    const [was, digest] = [known.get(file), digestOf(text)];
    if (was?.digest === digest) return was;
    const salt = was?.salt ?? randomBytes(16).toString('base64url');
    return { file, digest, salt, keys: keyDigests(file, text, salt) };
  });
}
