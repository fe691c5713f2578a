import type { Keeping } from './input-queue.ts';

const keyOf = (bench: string): string => `benchfold.called.${bench}`;

/** What a bench was called when its server was last there: a page loaded while it is away says so too. */
export function keptName(keeping: Keeping, bench: string): string | null {
  try {
    return keeping.getItem(keyOf(bench));
  } catch {
    return null;
  }
}

export function keepName(keeping: Keeping, bench: string, name: string): void {
  try {
    keeping.setItem(keyOf(bench), name);
  } catch {
    // Storage full or forbidden: the name is then known as long as the page lives.
  }
}
