import type { Language } from '#shared/words/language.ts';

/** What is said of a bench that asks for help, at the others and in the office. */
export interface HelpWords {
  readonly called: string;
  readonly asks: (benches: readonly string[]) => string;
}

export const helpWords: Readonly<Record<Language, HelpWords>> = {
  en: {
    called: 'Help is called: the other benches and the office see it until you go on',
    asks: (benches) => `Help is asked for at: ${benches.join(', ')}`,
  },
  es: {
    called: 'Ayuda avisada: las otras mesas y la oficina lo ven hasta que sigas',
    asks: (benches) => `Piden ayuda en: ${benches.join(', ')}`,
  },
};
