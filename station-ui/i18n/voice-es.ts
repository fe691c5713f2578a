import { WAKE_PHRASE } from '#shared/voice/phrases.ts';
import { plural } from './plural.ts';
import type { VoiceWords } from './words.ts';

export const voiceEs: VoiceWords = {
  name: 'voz',
  microphone: 'micrófono',
  turned: { on: 'sí', off: 'no' },
  modes: { always: 'escuchar siempre', 'push-to-talk': 'al pulsar', 'after-wake-phrase': 'al llamar' },
  talk: 'pulsa y habla',
  level: 'volumen',
  states: {
    off: 'Apagado aquí: encendido en otra pantalla de esta mesa, o se perdió la conexión',
    starting: 'Empezando a escuchar',
    listening: 'Escuchando: di lo que dicen los botones',
    asleep: `Di «${WAKE_PHRASE}» y después una orden`,
    'not-held': 'Mantén pulsado el botón o la tecla y habla',
    'no-microphone': 'El micrófono del ordenador no da sonido',
    muted: 'No escucha mientras habla la estación',
    'not-installed':
      'No hay reconocedor en el ordenador. En Debian: apt-get install libpocketsphinx3 libsphinxbase3 pocketsphinx-en-us; en otros, como dice el README',
    restarting: 'El reconocedor se paró; se está reiniciando',
    faulty: 'El reconocedor no arranca: mira el registro del servidor',
    'language-not-heard': 'Las órdenes solo se entienden en inglés: cambia a inglés, o toca, lee o pulsa',
  },
  heard: (outcome, command) =>
    ({
      digits: 'Oído: cifras',
      taken: `Oído: ${command}`,
      refused: `Oído: ${command}. Aquí no se puede`,
      'too-late': `Oído: ${command || 'una orden'}, pero el paso había cambiado. Repítelo`,
      'say-again': `Oído quizá: ${command}. Dilo otra vez`,
      'too-soon': `Oído dos veces seguidas: ${command}. Vale una`,
      'no-phrase': 'Oída una charla, ninguna orden',
      'near-miss': 'Casi una orden: repítela claro',
      'too-long': 'Demasiado largo para una orden',
      'too-short': 'Solo un golpe',
      'too-quiet': 'Demasiado bajo: acércate o habla más alto',
      woken: '¿Sí? Di una orden',
      clipped: 'Demasiado fuerte: aléjate o baja el micrófono',
    })[outcome],
  troubles: {
    'page-not-secure':
      'El navegador no da micrófono a una página http://. Ábrela en el propio ordenador como localhost, o por https://',
    forbidden: 'El navegador tiene prohibido el micrófono: permítelo junto a la dirección y enciéndelo otra vez',
    'none-found': 'No hay micrófono: conecta uno y enciéndelo otra vez',
    'in-use': 'El micrófono no se abre: quizá lo usa otro programa',
    'wrong-rate': 'Este navegador no da 16.000 muestras por segundo: usa otro navegador',
    unplugged: 'Se ha quitado el micrófono',
    'only-zeros': 'El micrófono solo da silencio: ¿está apagado o al mínimo?',
    'too-old': 'Este navegador es demasiado antiguo para escuchar',
  },
  captureTroubles: (state, said) => {
    const words = {
      'no-sound': 'El micrófono del ordenador no da sonido; se está reiniciando',
      'only-zeros': 'El micrófono del ordenador solo da silencio: ¿está apagado o al mínimo?',
      'wrong-rate': 'El micrófono no da 16.000 muestras por segundo: nómbralo con «plughw:» en devices.yaml',
      failed: 'El micrófono del ordenador no se abre: ¿está conectado y su nombre es correcto?',
      'no-program': 'Falta el programa de captura. En Debian: apt-get install alsa-utils',
      off: 'El micrófono del ordenador está apagado',
      starting: 'Se está abriendo el micrófono del ordenador',
      working: '',
    }[state];
    return said === '' ? words : `${words} (${said})`;
  },
  counts: (rejected, dropped, junk) =>
    `${String(rejected)} sin efecto · ${plural(dropped, 'trozo perdido', 'trozos perdidos')}${junk === 0 ? '' : ` · ${String(junk)} ${junk === 1 ? 'no era' : 'no eran'} sonido`}`,
};
