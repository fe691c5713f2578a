import type { StoreOrTransaction } from './open.ts';
import type { SpeechManner } from '#shared/wire/speech.ts';

/** Everything that was ever chosen about speech: who is spoken to how, and which benches speak. */
export interface ChosenSpeech {
  readonly manners: ReadonlyMap<string, SpeechManner>;
  readonly benches: ReadonlyMap<string, boolean>;
}

export async function loadSpeech(store: StoreOrTransaction): Promise<ChosenSpeech> {
  const [manners, benches] = await Promise.all([
    store.selectFrom('speech_manner').selectAll().execute(),
    store.selectFrom('speech_bench').selectAll().execute(),
  ]);
  return {
    manners: new Map(
      manners.map((row) => [
        row.listener,
        { wordsPerMinute: row.words_per_minute, volume: row.volume, form: row.form },
      ]),
    ),
    benches: new Map(benches.map((row) => [row.bench, row.speaks === 1])),
  };
}

export async function saveManner(
  store: StoreOrTransaction,
  listener: string,
  { wordsPerMinute, volume, form }: SpeechManner,
  now: number,
): Promise<void> {
  const row = { words_per_minute: wordsPerMinute, volume, form, changed_at: now };
  await store
    .insertInto('speech_manner')
    .values({ listener, ...row })
    .onConflict((conflict) => conflict.column('listener').doUpdateSet(row))
    .execute();
}

export async function saveBenchSpeaks(
  store: StoreOrTransaction,
  bench: string,
  speaks: boolean,
  now: number,
): Promise<void> {
  const row = { speaks: speaks ? (1 as const) : (0 as const), changed_at: now };
  await store
    .insertInto('speech_bench')
    .values({ bench, ...row })
    .onConflict((conflict) => conflict.column('bench').doUpdateSet(row))
    .execute();
}
