import { COMMANDS, type Command, type GivenBy } from './commands.ts';

/** What the station demands of a command before it acts on it. */
export interface CommandRule {
  /** false: no other command takes it back, so it asks for `confirm` first */
  readonly undoable: boolean;
  /** how a voice may give it */
  readonly voice: VoiceRule;
}

export interface VoiceRule {
  /** the least score, for each hundredth of a second of speech, at which one hearing is enough; below it, it is said twice */
  readonly sure: number;
  /** heard again sooner than this, it is the first one's echo or a stutter, in milliseconds */
  readonly notAgainWithinMs: number;
}

/**
 * What a hearing scores (the search's best path, each hundredth of a second of speech). Of phrases that synthetic voices
 * said in noise of 20 and 15 dB and beside a tape gun one in twenty scored below -68, one in ten below -64, half above -50.
 * A near miss scores as well as a command, and the second look tells them apart: the score tells a mumble from a word.
 */
export const VOICE_SCORES = { least: -100, usual: -68, careful: -64 } as const;

/** A question that a voice asked for and nobody answered is asked anew: what is heard much later meant something else. */
export const CONFIRM_BY_VOICE_WITHIN_MS = 30_000;

/** A phrase takes most of a second and is heard a third of a second after its end. */
const STUTTER_MS = 700;

const ordinary: VoiceRule = { sure: VOICE_SCORES.usual, notAgainWithinMs: STUTTER_MS };
const careful: VoiceRule = { sure: VOICE_SCORES.careful, notAgainWithinMs: 2 * STUTTER_MS };
/** Taken at every hearing: what it does is nothing, or less than nothing. */
const harmless: VoiceRule = { sure: VOICE_SCORES.least, notAgainWithinMs: STUTTER_MS };

const RULES: Readonly<Record<Command, CommandRule>> = {
  next: { undoable: true, voice: ordinary },
  back: { undoable: true, voice: ordinary },
  repeat: { undoable: true, voice: harmless },
  'set-aside': { undoable: false, voice: careful },
  help: { undoable: true, voice: ordinary },
  'too-tight': { undoable: true, voice: careful },
  'item-missing': { undoable: false, voice: careful },
  'go-without': { undoable: false, voice: careful },
  'item-damaged': { undoable: false, voice: careful },
  'zero-scale': { undoable: true, voice: ordinary },
  'weigh-again': { undoable: true, voice: ordinary },
  'make-lighter': { undoable: true, voice: ordinary },
  'pay-next-bracket': { undoable: false, voice: careful },
  'print-again': { undoable: false, voice: careful },
  'enter-number': { undoable: true, voice: ordinary },
  'start-over': { undoable: true, voice: ordinary },
  'tell-more': { undoable: true, voice: ordinary },
  'tell-less': { undoable: true, voice: ordinary },
  'fold-ahead': { undoable: true, voice: ordinary },
  'aside-list': { undoable: true, voice: ordinary },
  release: { undoable: false, voice: careful },
  'print-list': { undoable: true, voice: ordinary },
  'sign-off': { undoable: true, voice: ordinary },
  practice: { undoable: true, voice: ordinary },
  confirm: { undoable: false, voice: careful },
  cancel: { undoable: true, voice: harmless },
};

export function ruleOf(command: Command): CommandRule {
  return RULES[command];
}

/** Of these a shop may say that pressed or scanned they need no `confirm`. Said, they always do. */
export const ASKS_FIRST: readonly Command[] = COMMANDS.filter(
  (command) => !RULES[command].undoable && command !== 'confirm',
);

/** @param without what the shop lets pass unasked where it is not said but pressed or scanned */
export function asksFirst(command: Command, by: GivenBy, without: readonly Command[] = []): boolean {
  if (!ASKS_FIRST.includes(command)) return false;
  return by === 'voice' || !without.includes(command);
}

/** What was heard just before, as far as it matters for what is heard now. */
export interface HeardBefore {
  readonly command: Command;
  readonly at: number;
  readonly taken: boolean;
}

export type VoiceDecision = 'take' | 'say-again' | 'too-soon';

/** The second hearing of something unsure counts with the first for so long. */
const SECOND_HEARING_MS = 6000;

/** What becomes of a phrase that was heard. */
export function decideVoice(command: Command, score: number, before: HeardBefore | null, now: number): VoiceDecision {
  const { sure, notAgainWithinMs } = RULES[command].voice;
  const same = before !== null && before.command === command ? before : null;
  if (same?.taken === true && now - same.at < notAgainWithinMs) return 'too-soon';
  if (score >= sure) return 'take';
  const second = same !== null && !same.taken && now - same.at <= SECOND_HEARING_MS;
  return second ? 'take' : 'say-again';
}
