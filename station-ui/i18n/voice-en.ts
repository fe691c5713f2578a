import { WAKE_PHRASE } from '#shared/voice/phrases.ts';
import { plural } from './plural.ts';
import type { VoiceWords } from './words.ts';

export const voiceEn: VoiceWords = {
  name: 'voice',
  microphone: 'microphone',
  turned: { on: 'on', off: 'off' },
  modes: { always: 'always listening', 'push-to-talk': 'while held', 'after-wake-phrase': 'when called' },
  talk: 'hold to talk',
  level: 'how loud it is',
  states: {
    off: 'Off here: on at another screen of this bench, or the link was lost',
    starting: 'Starting to listen',
    listening: 'Listening: say what the buttons say',
    asleep: `Say “${WAKE_PHRASE}”, then a command`,
    'not-held': 'Hold the talk button or key and speak',
    muted: 'Not listening while the station speaks',
    'no-microphone': 'The microphone at the station’s computer gives no sound',
    'not-installed':
      'No recogniser on the station’s computer. On Debian: apt-get install libpocketsphinx3 libsphinxbase3 pocketsphinx-en-us; elsewhere as the README says',
    restarting: 'The recogniser stopped; it is being started again',
    faulty: 'The recogniser cannot start: see the server’s log',
    'language-not-heard': 'Commands are understood in English only: switch to English, or touch, scan or press',
  },
  heard: (outcome, command) =>
    ({
      digits: 'Heard: digits',
      taken: `Heard: ${command}`,
      refused: `Heard: ${command}. Not possible here`,
      'too-late': `Heard: ${command || 'a command'}, but the step had changed. Say it again`,
      'say-again': `Heard perhaps: ${command}. Say it once more`,
      'too-soon': `Heard twice at once: ${command}. Taken once`,
      'no-phrase': 'Heard talk, no command',
      'near-miss': 'Nearly a command: say it again, clearly',
      'too-long': 'Too long for a command',
      'too-short': 'Only a knock',
      'too-quiet': 'Too quiet: come nearer or speak up',
      woken: 'Yes? Say a command',
      clipped: 'Too loud: step back, or turn the microphone down',
    })[outcome],
  troubles: {
    'page-not-secure':
      'The browser gives no microphone to a page that came over http://. Open it on the station’s own computer as localhost, or over https://',
    forbidden: 'The browser was told to give no microphone: allow it beside the address, then switch it on again',
    'none-found': 'No microphone found: plug one in, then switch it on again',
    'in-use': 'The microphone cannot be opened: another program may be using it',
    'wrong-rate': 'This browser cannot give sound at 16,000 samples a second: use another browser',
    unplugged: 'The microphone was pulled out or taken away',
    'only-zeros': 'The microphone gives only silence: is it switched off or turned down?',
    'too-old': 'This browser is too old to listen',
  },
  captureTroubles: (state, said) => {
    const words = {
      'no-sound': 'The microphone at the station’s computer gives no sound; it is being started again',
      'only-zeros': 'The microphone at the station’s computer gives only silence: is it switched off or turned down?',
      'wrong-rate': 'The microphone gives another rate than 16,000 a second: in devices.yaml name it with “plughw:”',
      failed: 'The microphone at the station’s computer cannot be opened: is it plugged in and its name right?',
      'no-program': 'The capture program is not there. On Debian: apt-get install alsa-utils',
      off: 'The microphone at the station’s computer is off',
      starting: 'The microphone at the station’s computer is being opened',
      working: '',
    }[state];
    return said === '' ? words : `${words} (${said})`;
  },
  counts: (rejected, dropped, junk) =>
    `${String(rejected)} not taken · ${plural(dropped, 'piece')} lost${junk === 0 ? '' : ` · ${String(junk)} not sound`}`,
};
