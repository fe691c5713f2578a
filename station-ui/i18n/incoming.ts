import type { IncomingFile, IncomingState, WaitingWhy } from '#shared/wire/incoming.ts';
import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

export interface IncomingWords {
  readonly title: string;
  readonly how: (folder: string) => string;
  readonly trouble: (why: string) => string;
  readonly waiting: string;
  readonly why: Readonly<Record<WaitingWhy, string>>;
  readonly nothing: string;
  readonly columns: { readonly file: string; readonly when: string; readonly became: string };
  readonly states: Readonly<Record<IncomingState, string>>;
  readonly counts: (counts: IncomingFile['counts']) => string;
  readonly readBy: (source: string) => string;
  readonly liesIn: (place: string) => string;
  readonly more: (count: number) => string;
}

const en: IncomingWords = {
  title: 'The watched folder',
  how: (folder) =>
    `Files that are put into ${folder} are imported by themselves, each as a whole or not at all, and moved into its folders “taken” and “refused”.`,
  trouble: (why) => `The folder cannot be looked into (${why}). Files in it wait.`,
  waiting: 'Waiting',
  why: {
    growing: 'has just come, or still grows',
    'behind-others': 'comes after the files beside it',
    'being-read': 'is being read',
    'not-readable': 'cannot be read; it is tried again',
    'not-movable': 'is stored, but cannot be moved away; that is tried again',
    'no-plain-file': 'is no file; it is left alone',
  },
  nothing: 'Nothing has come yet.',
  columns: { file: 'file', when: 'when', became: 'what became of it' },
  states: { stored: 'stored', refused: 'refused, nothing of it stored', twice: 'known already, not read again' },
  counts: ({ added, changed, unchanged, refused }) =>
    `${String(added)} new, ${String(changed)} changed, ${String(unchanged)} unchanged${refused === 0 ? '' : `, ${String(refused)} refused`}`,
  readBy: (source) => `read as files of “${source}” are`,
  liesIn: (place) => `lies in ${place}`,
  more: (count) => `and ${String(count)} more; all stand in the text beside it`,
};

const es: IncomingWords = {
  title: 'La carpeta vigilada',
  how: (folder) =>
    `Los archivos que se ponen en ${folder} se importan solos, cada uno entero o nada, y pasan a sus carpetas «taken» y «refused».`,
  trouble: (why) => `No se puede mirar en la carpeta (${why}). Sus archivos esperan.`,
  waiting: 'En espera',
  why: {
    growing: 'acaba de llegar o aún crece',
    'behind-others': 'va después de los archivos de al lado',
    'being-read': 'se está leyendo',
    'not-readable': 'no se puede leer; se vuelve a intentar',
    'not-movable': 'está guardado, pero no se puede mover; se vuelve a intentar',
    'no-plain-file': 'no es un archivo; se deja como está',
  },
  nothing: 'Todavía no ha llegado nada.',
  columns: { file: 'archivo', when: 'cuándo', became: 'qué fue de él' },
  states: { stored: 'guardado', refused: 'rechazado, nada guardado', twice: 'ya conocido, no se lee otra vez' },
  counts: ({ added, changed, unchanged, refused }) =>
    `${plural(added, 'nuevo')}, ${plural(changed, 'cambiado')}, ${String(unchanged)} sin cambios${refused === 0 ? '' : `, ${plural(refused, 'rechazado')}`}`,
  readBy: (source) => `leído como los archivos de «${source}»`,
  liesIn: (place) => `está en ${place}`,
  more: (count) => `y ${String(count)} más; todo está en el texto de al lado`,
};

export const incomingWords: Readonly<Record<Language, IncomingWords>> = { en, es };
