import { plainWords } from './plain-words.ts';

/** Words that are remembered as they were written; a file repeats few words many times. */
const REMEMBERED = 1000;

/** Finds things by id or by any name they have, however it is written. */
export class NameIndex {
  readonly #ids = new Map<string, string>();
  readonly #asWritten = new Map<string, string | undefined>();

  constructor(things: Iterable<{ readonly id: string; readonly names: readonly string[] }>) {
    for (const { id, names } of things) {
      for (const name of [id, ...names]) {
        const plain = plainWords(name);
        if (!this.#ids.has(plain)) this.#ids.set(plain, id);
      }
    }
  }

  idOf(text: string): string | undefined {
    if (this.#asWritten.has(text)) return this.#asWritten.get(text);
    const id = this.#ids.get(plainWords(text));
    if (this.#asWritten.size < REMEMBERED) this.#asWritten.set(text, id);
    return id;
  }
}

export function namesOf(
  things: ReadonlyMap<string, { readonly id: string; readonly name: Readonly<Record<string, string>> }>,
): NameIndex {
  return new NameIndex([...things.values()].map(({ id, name }) => ({ id, names: Object.values(name) })));
}
