import type { Language } from '#shared/words/language.ts';

/** What is said of a load that is not the parcel to be weighed, and of a parcel that has no slip. */
export interface LoadWords {
  readonly another: string;
  readonly takeOffOther: string;
  readonly notJudged: string;
  readonly almostNothing: string;
  readonly almostNothingHow: string;
  readonly zeroAndWeigh: string;
  readonly slipMissing: { readonly failed: string; readonly unknown: string; readonly queued: string };
}

export const loadWords: Readonly<Record<Language, LoadWords>> = {
  en: {
    another: 'the parcel before this one',
    takeOffOther: 'Take the last parcel off',
    notJudged: 'Another load is on it now: take it off, wait for zero, put it on',
    almostNothing: 'Is the parcel on it?',
    almostNothingHow: 'hardly more than an empty scale',
    zeroAndWeigh: 'all off, zero the scale, then put the parcel on',
    slipMissing: {
      failed: 'its slip was not printed: “print again”, and put it with the parcel',
      unknown: 'nobody knows whether its slip came out: look, and “print again” if it did not',
      queued: 'its slip is still printing: put it with the parcel',
    },
  },
  es: {
    another: 'el paquete anterior',
    takeOffOther: 'Quita el paquete anterior',
    notJudged: 'Ahora hay otra carga: quítala, espera el cero y ponla otra vez',
    almostNothing: '¿Está el paquete encima?',
    almostNothingHow: 'apenas más que la balanza vacía',
    zeroAndWeigh: 'quita todo, pon a cero y pon el paquete',
    slipMissing: {
      failed: 'su albarán no se imprimió: «imprimir otra vez», y júntalo con el paquete',
      unknown: 'no se sabe si salió su albarán: mira, y si no, «imprimir otra vez»',
      queued: 'su albarán aún se imprime: júntalo con el paquete',
    },
  },
};
