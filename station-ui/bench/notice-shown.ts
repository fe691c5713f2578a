import { COMMANDS } from '#shared/run/commands.ts';
import type { Notice } from '#shared/run/types.ts';
import type { BenchView } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import type { Words } from '../i18n/words.ts';

/** These say what the middle of the screen asks or shows anyway. */
const ASKED_IN_THE_MIDDLE: ReadonlySet<string> = new Set(['confirm-asked', 'label-by-eye-asked', 'mass-mismatch']);

/** These fill the middle of the screen by themselves. */
const IN_FULL: ReadonlySet<string> = new Set(['label-wrong-postcode', 'label-used-before', 'label-other-number']);

/** The view's notice with names instead of ids; null where the middle of the screen says the same. */
export function noticeShown(view: BenchView, words: Words, language: Language): Notice | null {
  const { notice, container, packer } = view;
  if (notice === null) return null;
  const stopped = view.task.at === 'label' && view.task.stop !== undefined;
  if (view.confirming === null && stopped && IN_FULL.has(notice.code)) return null;
  if (notice.code === 'number-so-far') return null;
  const inTheMiddle = view.confirming !== null || view.task.at === 'decide';
  if (inTheMiddle && ASKED_IN_THE_MIDDLE.has(notice.code)) return null;
  const values: Record<string, string> = { ...notice.values };
  const command = COMMANDS.find((each) => each === values['command']);
  if (command !== undefined) values['command'] = words.commands[command];
  // The names of both pouches of a double bag stand in the middle and on the tag.
  const name = container?.doubled == null ? container?.name[language] : words.bench.bags.heading;
  if (name !== undefined && values['container'] === container?.id) values['container'] = name;
  if (name !== undefined && values['due'] === container?.id) values['dueName'] = name;
  if (packer !== null && notice.code === 'packer-changed') values['packer'] = packer.name;
  return { ...notice, values };
}
