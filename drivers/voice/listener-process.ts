/** The process that listens: native code that may fail does so here, and the station goes on. */
import { Ear } from './ear.ts';
import type { FromListener, ToListener } from './messages.ts';
import { openPocketsphinx, type Pocketsphinx } from './pocketsphinx.ts';
import { openSpeechModel } from './speech-model.ts';
import { VoiceError } from './voice-error.ts';

const tell = (message: FromListener): void => {
  if (process.connected) process.send?.(message);
};

function listen(recogniser: Pocketsphinx): void {
  const ears = new Map<string, Ear>();
  const earOf = (name: string): Ear => {
    const known = ears.get(name);
    if (known !== undefined) return known;
    const ear = new Ear({ recogniser, model: openSpeechModel(), now: () => performance.now() });
    ears.set(name, ear);
    return ear;
  };
  process.on('message', (message: ToListener) => {
    if (message.do === 'try') {
      const { id, phrases, pcm } = message;
      const ear = new Ear({ recogniser, model: openSpeechModel(), now: () => performance.now() });
      tell({ type: 'tried', id, heard: ear.tryOut(phrases, pcm) });
      return;
    }
    const ear = earOf(message.ear);
    if (message.do === 'expect') ear.expect(message.expected);
    else if (message.do === 'reset') ear.reset();
    else {
      for (const heard of ear.push(message.pcm)) tell({ type: 'heard', ear: message.ear, heard });
      tell({ type: 'taken', ear: message.ear, speaking: ear.speaking });
    }
  });
  tell({ type: 'ready', model: openSpeechModel() !== null });
}

// The parent's end is the end of the work.
process.on('disconnect', () => process.exit(0));
// Ctrl-C reaches the whole group; the parent says when to end.
process.on('SIGINT', () => undefined);
try {
  listen(openPocketsphinx());
} catch (error) {
  const code = error instanceof VoiceError && error.code === 'not-installed' ? 'not-installed' : 'cannot-start';
  tell({ type: 'cannot', code, message: error instanceof Error ? error.message : String(error) });
}
