import { allEnrolments, forgetEnrolment, saveEnrolment } from '#server/store/enrolments.ts';
import type { Store } from '#server/store/open.ts';
import type { Enrolment } from '#shared/voice/enrolment.ts';
import type { EnrolledView } from '#shared/wire/voice-takes.ts';

/** How each person is understood at each bench: asked at every step, so held in memory beside the store. */
export class EnrolmentBook {
  readonly #store: Store;
  readonly #all = new Map<string, EnrolledView>();

  private constructor(store: Store) {
    this.#store = store;
  }

  static async open(store: Store): Promise<EnrolmentBook> {
    const book = new EnrolmentBook(store);
    for (const each of await allEnrolments(store)) book.#all.set(keyOf(each.staff, each.bench), each);
    return book;
  }

  all(): readonly EnrolledView[] {
    return [...this.#all.values()];
  }

  of(staff: string | null, bench: string): Enrolment | null {
    return staff === null ? null : (this.#all.get(keyOf(staff, bench))?.enrolment ?? null);
  }

  async keep(kept: EnrolledView): Promise<void> {
    await saveEnrolment(this.#store, kept);
    this.#all.set(keyOf(kept.staff, kept.bench), kept);
  }

  async forget(staff: string, bench: string): Promise<void> {
    await forgetEnrolment(this.#store, staff, bench);
    this.#all.delete(keyOf(staff, bench));
  }
}

const keyOf = (staff: string, bench: string): string => JSON.stringify([staff, bench]);
