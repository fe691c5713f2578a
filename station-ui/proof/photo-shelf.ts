import type { PhotoSent } from '#shared/wire/proof.ts';

/** A photo, or why there is none, that waits for the station; when it was taken is by this screen's clock. */
export type WaitingPhoto = { readonly bench: string; readonly takenAt: number; readonly photo: WithoutAgo };
export type WithoutAgo = PhotoSent extends infer Each ? (Each extends PhotoSent ? Omit<Each, 'ago'> : never) : never;

/** Where photos wait that could not be sent yet, over reloads too. */
export interface PhotoShelf {
  readonly all: () => Promise<readonly WaitingPhoto[]>;
  readonly put: (photo: WaitingPhoto) => Promise<void>;
  readonly remove: (id: string) => Promise<void>;
}

const DATABASE = 'benchfold.photos';
const STORE = 'waiting';

/** The browser's own database; where it has none, photos wait as long as the page lives. */
export function browserShelf(): PhotoShelf {
  const memory = memoryShelf();
  const opened = open().catch(() => null);
  const within = async <Result>(
    mode: IDBTransactionMode,
    act: (store: IDBObjectStore) => IDBRequest<Result>,
  ): Promise<Result | null> => {
    const database = await opened;
    if (database === null) return null;
    return new Promise((resolve, reject) => {
      const transaction = database.transaction(STORE, mode);
      const request = act(transaction.objectStore(STORE));
      transaction.oncomplete = () => resolve(request.result);
      transaction.onabort = () => reject(transaction.error ?? new Error('aborted'));
    });
  };
  return {
    all: async () => {
      const kept = await within('readonly', (store) => store.getAll() as IDBRequest<WaitingPhoto[]>).catch(() => null);
      return [...(kept ?? []), ...(await memory.all())].sort((one, other) => one.takenAt - other.takenAt);
    },
    put: async (photo) => {
      const kept = await within('readwrite', (store) => store.put(photo)).catch(() => null);
      if (kept === null) await memory.put(photo);
    },
    remove: async (id) => {
      await memory.remove(id);
      await within('readwrite', (store) => store.delete(id)).catch(() => null);
    },
  };
}

export function memoryShelf(): PhotoShelf {
  const kept = new Map<string, WaitingPhoto>();
  return {
    all: () => Promise.resolve([...kept.values()]),
    put: (waiting) => {
      kept.set(waiting.photo.id, waiting);
      return Promise.resolve();
    },
    remove: (id) => {
      kept.delete(id);
      return Promise.resolve();
    },
  };
}

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(STORE, { keyPath: 'photo.id' });
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('not opened'));
    request.onblocked = () => reject(new Error('blocked'));
  });
}
