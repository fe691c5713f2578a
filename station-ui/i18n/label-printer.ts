import type { Language } from '#shared/words/language.ts';

interface LabelPrinterWords {
  readonly title: string;
  readonly speaks: (language: string, place: string) => string;
  readonly simulated: string;
  readonly mute: string;
  readonly trial: string;
  readonly pull: string;
  readonly plug: string;
  readonly since: (howLong: string) => string;
  readonly none: string;
}

/** What the page "Devices" says of the label printer. */
export const labelPrinterWords: Readonly<Record<Language, LabelPrinterWords>> = {
  en: {
    title: 'Label printer',
    speaks: (language, place) => `${language}, ${place}`,
    simulated: 'simulated',
    mute: 'It cannot be asked how it is: whether a label came out is seen on the paper alone.',
    trial: 'Print a trial label',
    pull: 'Pull its cable',
    plug: 'Plug it in again',
    since: (howLong) => `for ${howLong}`,
    none: 'No label was printed yet.',
  },
  es: {
    title: 'Impresora de etiquetas',
    speaks: (language, place) => `${language}, ${place}`,
    simulated: 'simulada',
    mute: 'No se le puede preguntar cómo está: si salió una etiqueta solo se ve en el papel.',
    trial: 'Imprimir una etiqueta de prueba',
    pull: 'Desenchufarla',
    plug: 'Enchufarla otra vez',
    since: (howLong) => `desde hace ${howLong}`,
    none: 'Todavía no se ha impreso ninguna etiqueta.',
  },
};
