import type { Clock } from '#server/clock.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import { loadSpeech, saveBenchSpeaks, saveManner, type ChosenSpeech } from '#server/store/speech.ts';
import { USUAL_MANNER, type SpeechChange, type SpeechManner, type SpeechView } from '#shared/wire/speech.ts';
import type { Speech } from './speech.ts';

export interface MannersParts {
  readonly store: Store;
  readonly shops: Pick<ShopHolder, 'current'>;
  readonly clock: Clock;
  readonly speech: Pick<Speech, 'state'>;
}

/** How every person wants to be spoken to: as they chose at a bench, else as the shop's files say. */
export class Manners {
  readonly #parts: MannersParts;
  #chosen: ChosenSpeech = { manners: new Map(), benches: new Map() };

  constructor(parts: MannersParts) {
    this.#parts = parts;
  }

  async load(): Promise<void> {
    this.#chosen = await loadSpeech(this.#parts.store);
  }

  /** @param packer who stands at the bench, or null before anybody has scanned a badge there */
  viewOf(bench: string, packer: string | null): SpeechView {
    return {
      ...this.#mannerOf(bench, packer),
      on: this.#chosen.benches.get(bench) ?? true,
      engine: this.#parts.speech.state,
    };
  }

  /** Stored before it is used. @throws when the store fails */
  async change(bench: string, packer: string | null, change: SpeechChange): Promise<void> {
    const { store, clock } = this.#parts;
    const { on, ...manner } = change;
    const now = clock.now();
    await inTransaction(store, async (transaction) => {
      if (on !== undefined) await saveBenchSpeaks(transaction, bench, on, now);
      if (Object.keys(manner).length > 0) {
        const changed = { ...this.#mannerOf(bench, packer), ...manner };
        await saveManner(transaction, listenerOf(bench, packer), changed, now);
      }
    });
    await this.load();
  }

  #mannerOf(bench: string, packer: string | null): SpeechManner {
    const chosen = this.#chosen.manners.get(listenerOf(bench, packer));
    if (chosen !== undefined) return chosen;
    const member = this.#parts.shops.current.staff.find((each) => each.id === packer);
    return { ...USUAL_MANNER, ...member?.speech };
  }
}

/** A person takes the choice along to every bench; of somebody who has not said who it is, the bench remembers it. */
function listenerOf(bench: string, packer: string | null): string {
  return packer === null ? `bench ${bench}` : `staff ${packer}`;
}
