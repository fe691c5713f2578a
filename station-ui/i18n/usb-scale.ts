import type { Language } from '#shared/words/language.ts';

/** What the bench says of the USB scale that hangs on its screen. */
export interface UsbScaleWords {
  readonly connect: string;
  readonly none: string;
  readonly cannotOpen: string;
  readonly held: string;
  readonly notOffered: string;
}

export const USB_SCALE_WORDS: Readonly<Record<Language, UsbScaleWords>> = {
  en: {
    connect: 'Connect the scale',
    none: 'The scale at this screen is not connected',
    cannotOpen: 'The scale cannot be opened: another page or program has it',
    held: 'Another screen of this bench has the scale',
    notOffered: 'This browser cannot read a USB scale here',
  },
  es: {
    connect: 'Conectar la balanza',
    none: 'La balanza de esta pantalla no está conectada',
    cannotOpen: 'No se puede abrir la balanza: la tiene otra página u otro programa',
    held: 'Otra pantalla de este banco tiene la balanza',
    notOffered: 'Este navegador no puede leer aquí una balanza USB',
  },
};
