import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

/** What every table and chart of the office says. */
export interface TableWords {
  readonly filter: string;
  readonly shown: (shown: number, all: number) => string;
  readonly none: string;
  readonly csv: string;
  readonly print: string;
  readonly before: string;
  readonly after: string;
  readonly page: (page: number, of: number) => string;
  readonly asTable: string;
  readonly loading: string;
  readonly failed: (message: string) => string;
  readonly noServer: string;
}

const en: TableWords = {
  filter: 'Filter',
  shown: (shown, all) => (shown === all ? '' : `${String(shown)} of `) + plural(all, 'row'),
  none: 'Nothing here.',
  csv: 'As a file (CSV)',
  print: 'Print this page',
  before: 'Page before',
  after: 'Next page',
  page: (page, of) => `Page ${String(page)} of ${String(of)}`,
  asTable: 'As a table',
  loading: 'Reading …',
  failed: (message) => `Not done: ${message}`,
  noServer: 'the server does not answer',
};

const es: TableWords = {
  filter: 'Filtrar',
  shown: (shown, all) => (shown === all ? '' : `${String(shown)} de `) + plural(all, 'fila'),
  none: 'No hay nada.',
  csv: 'Como archivo (CSV)',
  print: 'Imprimir esta página',
  before: 'Página anterior',
  after: 'Página siguiente',
  page: (page, of) => `Página ${String(page)} de ${String(of)}`,
  asTable: 'Como tabla',
  loading: 'Leyendo …',
  failed: (message) => `No se hizo: ${message}`,
  noServer: 'el servidor no responde',
};

export const tableWords: Readonly<Record<Language, TableWords>> = { en, es };
