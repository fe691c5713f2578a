import { readlinkSync } from 'node:fs';
import { constants, setPriority } from 'node:os';
import { basename } from 'node:path';

/**
 * Lets other threads of the machine go before the one that calls this, where the system ranks threads one by one (Linux);
 * elsewhere nothing changes. There is no way back: to be ranked higher again is not allowed to everybody.
 */
export function standBack(): void {
  try {
    setPriority(Number(basename(readlinkSync('/proc/thread-self'))), constants.priority.PRIORITY_BELOW_NORMAL);
  } catch {
    // It plans all the same.
  }
}
