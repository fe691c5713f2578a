import type { BenchView } from '#shared/wire/views.ts';
import { confirmHow } from '../i18n/confirm-how.ts';
import { sideWorkWords } from '../i18n/side-work.ts';
import type { Words } from '../i18n/words.ts';

/** What the packer is asked to confirm; '' when nothing is. */
export function question({ confirming, task, batch, order, language }: BenchView, { bench, commands }: Words): string {
  if (confirming === null) return '';
  if (confirming.command === 'release' && batch !== undefined) return sideWorkWords[language].endBatch;
  if (confirming.command === 'go-without') {
    // While pieces are gathered the first that is not there is the one to be found.
    const named = order?.pieces.find(({ mark }) => mark === 'waiting');
    return confirmHow[language].without(named?.title ?? '');
  }
  if (confirming.command !== 'next') return bench.confirming(confirming.command, confirming.reason);
  if (task.at === 'label') return bench.byEye(task.postcode);
  return task.at === 'decide' ? bench.asItIs : `${commands.next}?`;
}
