import type { BenchView } from '#shared/wire/views.ts';

/** How many pieces the order at hand asks for. */
export function piecesDue(view: BenchView): number {
  return view.order?.pieces.reduce((sum, piece) => sum + piece.due, 0) ?? 0;
}
