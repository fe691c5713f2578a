import { ALTERNATIVES, PHRASES } from './phrases.ts';
import { COMMANDS, type Command } from '#shared/run/commands.ts';

/** One phrase said once, and what the station made of it. */
export interface Take {
  readonly phrase: string;
  /** the phrase that was heard, null for none */
  readonly heard: string | null;
  /** how loud the voice and the room were, in dB below full scale */
  readonly voiceDb: number;
  readonly floorDb: number;
}

/** How one command is understood of one person at one bench. */
export interface EnrolledCommand {
  readonly command: Command;
  /** the phrase that works better */
  readonly phrase: string;
  readonly right: number;
  readonly of: number;
  /** neither phrase is understood reliably: touch, scan or press for this one */
  readonly weak: boolean;
}

export interface Enrolment {
  readonly commands: readonly EnrolledCommand[];
  /** how far the voice stands above the room, in dB, of the quietest takes */
  readonly aboveRoomDb: number;
  /** the gate's: how far above the room's floor a voice must stand, in dB */
  readonly gateDb: number;
}

/** Every phrase is said so often. */
export const TAKES = 3;
/** Less than this above the room, and words are lost: nearer to the microphone, or a quieter room. */
export const CLOSE_ENOUGH_DB = 15;
const GATE_LEAST_DB = 2;
const GATE_MOST_DB = 8;

/**
 * What the last takes of each phrase say: the first phrase stays where it was heard every time or the second is no better.
 * The gate opens at a quarter of the way from the room to the voice. Commands without takes are left out.
 */
export function enrolmentOf(takes: readonly Take[]): Enrolment {
  const score = (phrase: string) => {
    const last = takes.filter((take) => take.phrase === phrase).slice(-TAKES);
    return { phrase, of: last.length, right: last.filter((take) => take.heard === phrase).length };
  };
  const share = ({ right, of }: { right: number; of: number }) => right / Math.max(1, of);
  const commands = COMMANDS.flatMap((command): EnrolledCommand[] => {
    const first = score(PHRASES.en[command]);
    const second = score(ALTERNATIVES[command]);
    const best = share(second) > share(first) ? second : first;
    return best.of === 0 ? [] : [{ command, ...best, weak: share(best) < 0.6 }];
  });
  const above = takes.map(({ voiceDb, floorDb }) => voiceDb - floorDb).sort((a, b) => a - b);
  const aboveRoomDb = above[Math.floor(above.length / 10)] ?? 0;
  const gateDb = Math.max(GATE_LEAST_DB, Math.min(GATE_MOST_DB, Math.round(aboveRoomDb / 4)));
  return { commands, aboveRoomDb, gateDb };
}

/** The second phrases that are listened for beside the first ones. */
export function secondPhrases({ commands }: Enrolment): readonly string[] {
  return commands.filter((each) => each.phrase === ALTERNATIVES[each.command]).map((each) => each.phrase);
}
