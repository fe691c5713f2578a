import type { Language } from '#shared/words/language.ts';
import type { IncomingState } from '#shared/wire/incoming.ts';
import { importText } from './problems-in-spanish.ts';

interface Told {
  readonly name: string;
  readonly state: IncomingState;
  readonly problems: readonly string[];
  readonly more: number;
  /** "2026-11-25 16:40", on the shop's clock */
  readonly when: string;
}

/** The text beside a file that was not stored; each problem on a line of its own. */
export function incomingText({ name, state, problems, more, when }: Told, language: Language): string {
  const words = WORDS[language];
  const lines = problems.map((problem) => importText(problem, language));
  return [
    state === 'twice' ? words.twice(name, when) : words.refused(name, when),
    '',
    ...lines,
    ...(more > 0 ? [words.more(more)] : []),
    '',
    state === 'twice' ? words.ifMeant : words.mend,
    '',
  ].join('\n');
}

/** A refused line as one text, which {@link importText} puts into other languages as well. */
export function problemLine(refused: {
  readonly line: number;
  readonly column: string | null;
  readonly expected: string;
  readonly found: string;
}): string {
  const { line, column, expected, found } = refused;
  const at = column === null ? `line ${String(line)}` : `line ${String(line)}, column ${column}`;
  return `${at}: expected ${expected}; found ${found}`;
}

const WORDS = {
  en: {
    refused: (name: string, when: string) => `${name} was refused on ${when}. Nothing of it was stored.`,
    twice: (name: string, when: string) => `${name} was not read on ${when}: a file with the very same content was.`,
    more: (count: number) => `and ${String(count)} more`,
    mend: 'Mend the file and put it into the folder again. To store the rest of it without these lines, choose it on the page Import.',
    ifMeant: 'Nothing is done twice here. If it is meant, choose the file on the page Import.',
  },
  es: {
    refused: (name: string, when: string) => `${name} se rechazó el ${when}. No se guardó nada de él.`,
    twice: (name: string, when: string) =>
      `${name} no se leyó el ${when}: ya se leyó un archivo con el mismo contenido.`,
    more: (count: number) => `y ${String(count)} más`,
    mend: 'Corrija el archivo y póngalo otra vez en la carpeta. Para guardar el resto sin estas líneas, elíjalo en la página Importar.',
    ifMeant: 'Aquí nada se hace dos veces. Si es lo que quiere, elija el archivo en la página Importar.',
  },
} satisfies Record<Language, unknown>;
