import type { Language } from '#shared/words/language.ts';

/** What is said of a load that is not the parcel to be weighed, and of a parcel that has no slip. */
export interface LoadWords {
  readonly another: string;
  readonly takeOffOther: string;
  readonly notJudged: string;
  readonly almostNothing: string;
  readonly almostNothingHow: string;
  readonly zeroAndWeigh: string;
  /** at the scale while it tells nothing */
  readonly silent: string;
  readonly silentHow: string;
  /** at the scale while the pan holds something else */
  readonly thenThis: string;
  /** the next bracket was paid: the slip was printed anew */
  readonly newSlip: string;
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
    silent: 'The scale does not answer',
    silentHow: 'see that it is on and its cable is in; this parcel waits for it',
    thenThis: 'then put this one on, not sealed yet',
    newSlip: 'the new slip inside, not the one with the warning; close the whole edge',
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
    silent: 'La balanza no contesta',
    silentHow: 'mira si está encendida y el cable bien puesto; este paquete la espera',
    thenThis: 'después pon este, sin cerrar',
    newSlip: 'el albarán nuevo dentro, no el del aviso; cierra todo el borde',
    slipMissing: {
      failed: 'su albarán no se imprimió: «imprimir otra vez», y júntalo con el paquete',
      unknown: 'no se sabe si salió su albarán: mira, y si no, «imprimir otra vez»',
      queued: 'su albarán aún se imprime: júntalo con el paquete',
    },
  },
};
