import type { ScanMeaning } from '#shared/codes/types.ts';
import type { RunState } from '#shared/run/types.ts';

/** An invented piece of the practice run at hand, which no store knows; null for any other code. */
export function inventedPiece(text: string, run: RunState): ScanMeaning | null {
  if (!run.practice) return null;
  const code = text.trim().toUpperCase();
  const found = run.order?.pieces.find(({ sku }) => sku === code);
  return found === undefined ? null : { means: 'piece', text, sku: found.sku };
}
