import { NoCollection, scanAtBench, type LoadParts } from '#server/office/hand-over/load.ts';
import { carrierName } from '#server/office/hand-over/carriers.ts';
import { parcelsInSack } from '#server/store/sacks.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import type { SackVerdict } from '#shared/hand-over/sack.ts';
import type { Notice, NoticeCode } from '#shared/run/types.ts';
import type { Language } from '#shared/words/language.ts';

const NOTICES: Readonly<Record<SackVerdict, { readonly tone: Notice['tone']; readonly code: NoticeCode }>> = {
  in: { tone: 'well', code: 'sack-in' },
  'already-in': { tone: 'attention', code: 'sack-already-in' },
  'wrong-carrier': { tone: 'stop', code: 'sack-wrong-carrier' },
  'left-before': { tone: 'stop', code: 'sack-left-before' },
  stays: { tone: 'stop', code: 'sack-stays' },
  'not-known': { tone: 'stop', code: 'sack-not-known' },
};

/** How many deliveries of the same scan are told apart. */
const REMEMBERED = 100;

/** Loads parcels into sacks with a bench's scanner while nothing is packed there. */
export class SackScanner {
  readonly #bench: string;
  /** what came of a delivery, so that the same one again says the same */
  readonly #known = new Map<string, Notice>();

  constructor(bench: string) {
    this.#bench = bench;
  }

  /** What the packer is told; null where the code is for the run. */
  async take(parts: LoadParts, meaning: ScanMeaning, language: Language, id?: string): Promise<Notice | null> {
    const before = id === undefined ? undefined : this.#known.get(id);
    if (before !== undefined) return before;
    const notice = await this.#notice(parts, meaning, language);
    if (id === undefined || notice === null) return notice;
    if (this.#known.size >= REMEMBERED) this.#known.clear();
    this.#known.set(id, notice);
    return notice;
  }

  async #notice(parts: LoadParts, meaning: ScanMeaning, language: Language): Promise<Notice | null> {
    const nameOf = (carrier: string) => carrierName(parts.shop, carrier)[language];
    try {
      const done = await scanAtBench(parts, this.#bench, meaning);
      if (done === null) return null;
      if ('opened' in done) {
        const values = { carrier: nameOf(done.opened.carrier), at: done.opened.at };
        return { tone: 'well', code: 'sack-open', values };
      }
      const { verdict, parcel, sack } = done;
      const values = {
        carrier: nameOf(sack.carrier),
        text: meaning.text,
        count: String((await parcelsInSack(parts.store, sack.id)).length),
        ...(parcel === null ? {} : { order: parcel.order, goes: nameOf(parcel.carrier) }),
      };
      return { ...NOTICES[verdict], values };
    } catch (error) {
      if (!(error instanceof NoCollection)) throw error;
      return { tone: 'stop', code: 'sack-not-known', values: { text: meaning.text } };
    }
  }
}
