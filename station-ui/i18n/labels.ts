import type { BenchLabel, CustomsFact, LabelPaper } from '#shared/wire/label.ts';
import type { Language } from '#shared/words/language.ts';

/** What a bench says of labels that come from outside. */
export interface BenchLabelWords {
  readonly states: Readonly<Record<BenchLabel['state'], string>>;
  /** how to go on without an answer; buttons by their words */
  readonly goOn: (next: string, byNumber: string) => string;
  readonly waitOrGoOn: string;
  readonly paper: Readonly<Record<Exclude<LabelPaper, 'none'>, string>>;
  readonly onScreen: string;
  readonly open: string;
  readonly printAgain: string;
  readonly number: string;
  readonly customs: string;
  readonly facts: Readonly<Record<CustomsFact, string>>;
  readonly gap: (title: string, facts: string) => string;
  readonly notSent: string;
}

const en: BenchLabelWords = {
  states: {
    coming: 'The label is being bought',
    late: 'No answer yet',
    held: 'The label is not asked for yet',
    'given-up': 'No label came',
    here: 'The label is bought',
    'passed-on': 'Passed on: the label comes another way',
  },
  goOn: (next, byNumber) => `You may go on with a label of your own: scan it, or “${next}”, or “${byNumber}”.`,
  waitOrGoOn: 'It prints when it comes. A label of your own may be scanned instead.',
  paper: {
    queued: 'printing',
    printed: 'printed',
    failed: 'not printed yet, tried again',
    unknown: 'printed? Look at the label printer',
  },
  onScreen: 'no printer here prints it',
  open: 'open the label',
  printAgain: 'print it again',
  number: 'scan the label with this number',
  customs: 'Customs',
  facts: { value: 'value', mass: 'mass', origin: 'country of origin' },
  gap: (title, facts) => `${title}: ${facts} missing`,
  notSent: 'The office must say this before a label can be bought.',
};

const es: BenchLabelWords = {
  states: {
    coming: 'Se está comprando la etiqueta',
    late: 'Todavía sin respuesta',
    held: 'La etiqueta aún no se pidió',
    'given-up': 'No llegó ninguna etiqueta',
    here: 'La etiqueta está comprada',
    'passed-on': 'Entregado: la etiqueta llega por otra vía',
  },
  goOn: (next, byNumber) => `Puedes seguir con una etiqueta tuya: léela, o «${next}», o «${byNumber}».`,
  waitOrGoOn: 'Se imprime al llegar. También puedes leer una etiqueta tuya.',
  paper: {
    queued: 'imprimiendo',
    printed: 'impresa',
    failed: 'aún sin imprimir, se reintenta',
    unknown: '¿impresa? Mira la impresora de etiquetas',
  },
  onScreen: 'ninguna impresora de aquí la imprime',
  open: 'abrir la etiqueta',
  printAgain: 'imprimir otra vez',
  number: 'lee la etiqueta con este número',
  customs: 'Aduana',
  facts: { value: 'valor', mass: 'peso', origin: 'país de origen' },
  gap: (title, facts) => `${title}: falta ${facts}`,
  notSent: 'La oficina debe indicarlo antes de comprar la etiqueta.',
};

export const benchLabelWords: Readonly<Record<Language, BenchLabelWords>> = { en, es };
