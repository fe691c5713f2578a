import { PHRASES } from '#shared/voice/phrases.ts';

/** A label's number given by hand. */
export interface NumberPadWords {
  readonly heading: string;
  /** what can be given: the parcel's number, or the postcode beside it */
  readonly how: string;
  readonly none: string;
  readonly count: (digits: number) => string;
  readonly soFar: (digits: string) => string;
  readonly pad: string;
  /** how to take digits back */
  readonly mend: string;
}

export const numberPadEn: NumberPadWords = {
  heading: 'Enter the label’s number',
  how: 'all its digits, or only those of its postcode',
  none: 'say, touch or type digits',
  count: (digits) => `${String(digits)} ${digits === 1 ? 'digit' : 'digits'}`,
  soFar: (digits) => `so far ${digits}`,
  pad: 'digits',
  mend: `“${PHRASES.en.back}” takes away what came last`,
};

export const numberPadEs: NumberPadWords = {
  heading: 'Da el número de la etiqueta',
  how: 'todas sus cifras, o solo las del código postal',
  none: 'toca o teclea las cifras',
  count: (digits) => `${String(digits)} ${digits === 1 ? 'cifra' : 'cifras'}`,
  soFar: (digits) => `hasta ahora ${digits}`,
  pad: 'cifras',
  mend: `«${PHRASES.es.back}» quita lo último`,
};
