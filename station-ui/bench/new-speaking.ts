import { Speaker, type SpeechTrouble } from '../audio/speaker.ts';
import { fetchSpeech, playSpeech } from '../audio/speech-sound.ts';
import { Speaking } from './speaking.ts';

/** Speech out of this browser: the ear of the bench is told when it begins and ends. */
export function newSpeaking(
  ear: (ask: 'speaking' | 'silent', milliseconds?: number) => void,
  trouble: (trouble: SpeechTrouble | null) => void,
): Speaking {
  const speaking = (milliseconds: number | null): void => {
    if (milliseconds === null) ear('silent');
    else ear('speaking', Math.round(milliseconds));
  };
  return new Speaking({ speaker: new Speaker({ fetch: fetchSpeech, play: playSpeech, speaking, trouble }) });
}
