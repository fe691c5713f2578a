import type { Command } from '#shared/run/commands.ts';
import type { Language } from '#shared/words/language.ts';

/** What follows from a command that is asked to be confirmed, and whether it can be taken back. */
export interface ConfirmHow {
  readonly aside: string;
  readonly release: string;
  /** ends folding ahead */
  readonly batch: string;
  readonly printAgain: string;
  readonly goWithout: string;
  /** the question itself */
  readonly without: (piece: string) => string;
  readonly final: string;
}

export const confirmHow: Readonly<Record<Language, ConfirmHow>> = {
  en: {
    aside: 'it goes to the set-aside shelf and can be taken up again there',
    release: 'any bench can pack it later',
    batch: 'what lies folded in its basket stays there',
    printAgain: 'if one came out already, there will be two',
    goWithout: 'it follows in an order of its own when it is found; the slip says so',
    without: (piece) => `Send the order without ${piece}?`,
    final: 'this cannot be undone',
  },
  es: {
    aside: 'va al estante de apartados y se puede retomar allí',
    release: 'cualquier mesa puede prepararlo después',
    batch: 'lo que está doblado en su cesta se queda allí',
    printAgain: 'si ya salió una, habrá dos',
    goWithout: 'va después en un pedido propio cuando se encuentre; el albarán lo dice',
    without: (piece) => `¿Enviar el pedido sin ${piece}?`,
    final: 'no se puede deshacer',
  },
};

/** The line under the question. */
export function confirmHowOf(command: Command, inBatch: boolean, language: Language): string {
  const said = confirmHow[language];
  if (command === 'set-aside') return said.aside;
  if (command === 'go-without') return said.goWithout;
  if (command === 'release') return inBatch ? said.batch : said.release;
  return command === 'print-again' ? said.printAgain : said.final;
}
