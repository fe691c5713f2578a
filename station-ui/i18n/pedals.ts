import type { Language } from '#shared/words/language.ts';

/** What the office says while it learns the keys of a foot switch. */
export interface PedalWords {
  readonly heading: string;
  readonly how: string;
  readonly does: string;
  readonly main: string;
  readonly press: string;
  readonly waiting: string;
  readonly sends: (key: string, meaning: string) => string;
  readonly taken: (key: string, meaning: string) => string;
  readonly forConfig: string;
  readonly again: string;
}

const en: PedalWords = {
  heading: 'Foot switch',
  how: 'Plug the foot switch into the tablet or computer that shows this page. Choose what a pedal does, touch the button, and press the pedal.',
  does: 'this pedal does',
  main: 'whatever the large button does',
  press: 'press the pedal now',
  waiting: 'waiting for the pedal; Escape ends it',
  sends: (key, meaning) => `${key}: ${meaning}`,
  taken: (key, meaning) => `${key} is taken: ${meaning}. Have the pedal send another key, or start over.`,
  forConfig: 'For the bench in devices.yaml:',
  again: 'start over',
};

const es: PedalWords = {
  heading: 'Pedal',
  how: 'Conecte el pedal a la tableta o al ordenador que muestra esta página. Elija qué hace un pedal, toque el botón y pise el pedal.',
  does: 'este pedal hace',
  main: 'lo que haga el botón grande',
  press: 'pise el pedal ahora',
  waiting: 'esperando el pedal; Escape lo termina',
  sends: (key, meaning) => `${key}: ${meaning}`,
  taken: (key, meaning) => `${key} ya está en uso: ${meaning}. Haga que el pedal envíe otra tecla o empiece de nuevo.`,
  forConfig: 'Para la mesa, en devices.yaml:',
  again: 'empezar de nuevo',
};

export const pedalWords: Readonly<Record<Language, PedalWords>> = { en, es };
