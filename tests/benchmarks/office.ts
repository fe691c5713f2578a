import { dayBoard } from './office-day-board.ts';
import { bulkImport } from './office-import.ts';
import { searching } from './office-search.ts';
import { settings } from './office-settings.ts';
import type { Figure } from './figure.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

/** The office of a shop with years behind it: its files, searching it, a long file of orders, and a day board of thousands. */
export async function bench(): Promise<readonly Figure[]> {
  const data = temporaryFolder('office-bench');
  try {
    return [...settings(), ...(await searching(data.path)), ...(await bulkImport(data.path)), ...(await dayBoard())];
  } finally {
    data.remove();
  }
}
