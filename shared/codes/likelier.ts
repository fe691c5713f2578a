import type { ScanMeaning } from './types.ts';

/** What the shop itself knows is surer than a long number, which reads as a label whatever it is. */
function sureness({ means }: ScanMeaning): number {
  if (means === 'unknown') return 0;
  return means === 'label' ? 1 : 2;
}

/** Which of two readings of the same keys was meant: the surer one, as typed where both are alike. */
export function likelier(typed: ScanMeaning, placed: ScanMeaning): ScanMeaning {
  return sureness(placed) > sureness(typed) ? placed : typed;
}
