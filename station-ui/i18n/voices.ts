import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

/** What the "Voices" page says. */
export interface VoicesWords {
  readonly title: string;
  readonly how: string;
  readonly person: string;
  readonly bench: string;
  readonly begin: string;
  readonly record: string;
  readonly recording: string;
  readonly skip: string;
  readonly end: string;
  readonly talk: string;
  readonly talkPrompt: string;
  readonly sayNow: (phrase: string) => string;
  readonly progress: (done: number, of: number) => string;
  readonly heardRight: string;
  readonly heardOther: (phrase: string) => string;
  readonly heardNothing: (why: string) => string;
  readonly near: (db: number) => string;
  readonly level: string;
  readonly command: string;
  readonly sayThis: string;
  readonly rightOf: string;
  readonly right: (right: number, of: number) => string;
  readonly does: string;
  readonly weak: string;
  readonly well: string;
  readonly second: string;
  readonly enrolled: string;
  readonly noneYet: string;
  readonly tooFar: (db: number) => string;
  readonly gate: (above: number, gate: number) => string;
  readonly forget: string;
  readonly forgotten: string;
  readonly recorded: (takes: number, folder: string) => string;
  readonly labels: string;
  readonly allTakes: string;
  readonly failed: (message: string) => string;
}

const en: VoicesWords = {
  title: 'Voices',
  how: 'A person says each command three times, at the bench’s noise and distance. You see which ones are understood; where one is weak, a second phrase is tried. The takes stay on this computer, for measuring.',
  person: 'Person',
  bench: 'Bench',
  begin: 'Begin',
  record: 'Record',
  recording: 'Recording: speak',
  skip: 'Skip',
  end: 'Stop and work out',
  talk: 'Record talk that is no command',
  talkPrompt: 'Talk as you do while packing',
  sayNow: (phrase) => `Say “${phrase}”`,
  progress: (done, of) => `${String(done)} of ${String(of)}`,
  heardRight: 'understood',
  heardOther: (phrase) => `heard as “${phrase}”`,
  heardNothing: (why) => `not understood: ${why}`,
  near: (db) => `the voice stands ${String(db)} dB above the room`,
  level: 'how loud it is',
  command: 'Command',
  sayThis: 'Say',
  rightOf: 'Understood',
  right: (right, of) => `${String(right)} of ${String(of)}`,
  does: 'Works here',
  weak: 'weak: touch, scan or press for this one',
  well: 'works',
  second: 'second phrase',
  enrolled: 'Tried so far',
  noneYet: 'Nobody yet. The first phrases are listened for.',
  tooFar: (db) => `Only ${String(db)} dB above the room: come nearer to the microphone, or use a headset.`,
  gate: (above, gate) => `Voice ${String(above)} dB above the room; the gate opens at ${String(gate)} dB.`,
  forget: 'Forget',
  forgotten: 'Forgotten',
  recorded: (takes, folder) =>
    `${plural(takes, 'take')} in ${folder}. Measure with them: npm run -s bench -- voice --set FOLDER`,
  labels: 'Download the labels (CSV)',
  allTakes: 'All recordings and their labels (ZIP)',
  failed: (message) => `That did not work: ${message}`,
};

const es: VoicesWords = {
  title: 'Voces',
  how: 'Una persona dice cada orden tres veces, con el ruido y a la distancia de la mesa. Se ve cuáles se entienden; donde una falla se prueba otra frase. Las grabaciones quedan en este ordenador, para medir.',
  person: 'Persona',
  bench: 'Mesa',
  begin: 'Empezar',
  record: 'Grabar',
  recording: 'Grabando: habla',
  skip: 'Saltar',
  end: 'Parar y calcular',
  talk: 'Grabar charla que no es orden',
  talkPrompt: 'Habla como al embalar',
  sayNow: (phrase) => `Di «${phrase}»`,
  progress: (done, of) => `${String(done)} de ${String(of)}`,
  heardRight: 'entendido',
  heardOther: (phrase) => `oído como «${phrase}»`,
  heardNothing: (why) => `no entendido: ${why}`,
  near: (db) => `la voz está ${String(db)} dB sobre la sala`,
  level: 'volumen',
  command: 'Orden',
  sayThis: 'Di',
  rightOf: 'Entendido',
  right: (right, of) => `${String(right)} de ${String(of)}`,
  does: 'Funciona aquí',
  weak: 'débil: toca, lee o pulsa para esta',
  well: 'funciona',
  second: 'segunda frase',
  enrolled: 'Probado hasta ahora',
  noneYet: 'Nadie todavía. Se esperan las primeras frases.',
  tooFar: (db) => `Solo ${String(db)} dB sobre la sala: acércate al micrófono o usa auriculares.`,
  gate: (above, gate) => `Voz ${String(above)} dB sobre la sala; la puerta abre a ${String(gate)} dB.`,
  forget: 'Olvidar',
  forgotten: 'Olvidado',
  recorded: (takes, folder) =>
    `${plural(takes, 'grabación', 'grabaciones')} en ${folder}. Mide con ellas: npm run -s bench -- voice --set CARPETA`,
  labels: 'Descargar las etiquetas (CSV)',
  allTakes: 'Todas las grabaciones y sus rótulos (ZIP)',
  failed: (message) => `No funcionó: ${message}`,
};

export const voicesWords: Readonly<Record<Language, VoicesWords>> = { en, es };
