import { sentencesOf, type Cue } from './cue.ts';
import { speakable } from './speakable.ts';
import type { BenchView } from '#shared/wire/views.ts';

/** What is said when help is asked for at another bench that did not ask before; null else. */
export function helpCue(before: BenchView, after: BenchView): Cue | null {
  const asked = after.helpWanted?.find((name) => before.helpWanted?.includes(name) !== true);
  if (asked === undefined) return null;
  const text = sentencesOf(after.language).helpWanted(speakable(asked, after.language));
  return { key: `help ${asked}`, urgency: 'normal', full: text, short: text };
}
