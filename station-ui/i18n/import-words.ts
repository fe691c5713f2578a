import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

export interface ImportWords {
  readonly either: string;
  readonly chooseFiles: string;
  readonly dropFiles: string;
  readonly waits: string;
  readonly looking: string;
  readonly isStored: string;
  readonly leftOut: string;
  readonly readBy: (source: string) => string;
  readonly files: (count: number) => string;
  readonly piecesFirst: string;
  readonly storeAll: (records: number, files: number) => string;
  readonly columns: { readonly file: string; readonly holds: string; readonly state: string };
  readonly would: (added: number, changed: number, unchanged: number, refused: number) => string;
  readonly show: string;
  readonly mapByHand: string;
  readonly mapTitle: (file: string) => string;
  readonly mapHow: string;
  readonly ourField: string;
  readonly theirColumn: string;
  readonly firstValues: string;
  readonly needed: string;
  readonly nothing: string;
  readonly constant: string;
  readonly constantFor: (field: string) => string;
  readonly unitFor: (field: string) => string;
  readonly asHeaderOrShop: string;
  readonly columnNumber: (number: number, header: string, sample: string | undefined) => string;
  readonly sourceName: string;
  readonly sourceHint: string;
  readonly decimals: string;
  readonly decimalMarks: Readonly<Record<'point' | 'comma', string>>;
  readonly days: string;
  readonly asShop: string;
  readonly save: string;
  readonly leave: string;
  readonly stillMissing: (fields: string) => string;
  readonly sources: string;
  readonly sourcesHow: string;
  readonly source: string;
  readonly reads: string;
  readonly changedAt: string;
  readonly usedAt: string;
  readonly never: string;
  readonly edit: string;
  readonly editFor: (source: string) => string;
  readonly remove: string;
  readonly removeFor: (source: string) => string;
  readonly really: (source: string) => string;
  readonly keep: string;
}

const en: ImportWords = {
  either: 'as its columns say',
  chooseFiles: 'Choose files',
  dropFiles: 'or drop CSV files here, one or several',
  waits: 'waits for its turn',
  looking: 'being looked at',
  isStored: 'stored',
  leftOut: 'stays out',
  readBy: (source) => `Read as files of “${source}” are.`,
  files: (count) => (count === 1 ? 'What this file would do' : `What these ${String(count)} files would do`),
  piecesFirst: 'Each is judged by itself; files of pieces come before files of orders.',
  storeAll: (records, files) => `Store these ${String(records)} of ${String(files)} ${files === 1 ? 'file' : 'files'}`,
  columns: { file: 'file', holds: 'holds', state: 'state' },
  would: (added, changed, unchanged, refused) =>
    `${String(added)} new, ${String(changed)} changed, ${String(unchanged)} unchanged, ${String(refused)} refused`,
  show: 'What it would do, line by line',
  mapByHand: 'Say which column is which, and how days and decimals are written',
  mapTitle: (file) => `Which column of ${file} is which`,
  mapHow: 'What you say here is kept under a name, and every file with the same header row is read so from then on.',
  ourField: 'we need',
  theirColumn: 'taken from',
  firstValues: 'first values',
  needed: 'needed',
  nothing: 'nothing',
  constant: 'always the same …',
  constantFor: (field) => `What ${field} always is`,
  unitFor: (field) => `Unit of ${field}`,
  asHeaderOrShop: 'unit as the column or the shop says',
  columnNumber: (number, header, sample) =>
    `${header === '' ? '' : `${header}, `}column ${String(number)}${sample === undefined ? '' : `: ${sample}`}`,
  sourceName: 'Name of this source',
  sourceHint: 'such as: market list',
  decimals: 'Decimals',
  decimalMarks: { point: 'with a point: 12.50', comma: 'with a comma: 12,50' },
  days: 'Days',
  asShop: 'as in the shop’s other files',
  save: 'Keep this and look through the file',
  leave: 'Leave it',
  stillMissing: (fields) => `Still without a column: ${fields}.`,
  sources: 'Sources whose columns are known',
  sourcesHow: 'A file with the same header row is read so, here, in the watched folder and by the command line.',
  source: 'source',
  reads: 'fields',
  changedAt: 'changed',
  usedAt: 'last used',
  never: 'never',
  edit: 'Change',
  editFor: (source) => `Change how files of ${source} are read`,
  remove: 'Forget',
  removeFor: (source) => `Forget how files of ${source} are read`,
  really: (source) => `Files of “${source}” will be read by their columns’ names only. Forget?`,
  keep: 'Keep',
};

const es: ImportWords = {
  either: 'según sus columnas',
  chooseFiles: 'Elegir archivos',
  dropFiles: 'o suelte aquí archivos CSV, uno o varios',
  waits: 'espera su turno',
  looking: 'se está mirando',
  isStored: 'guardado',
  leftOut: 'se queda fuera',
  readBy: (source) => `Leído como los archivos de «${source}».`,
  files: (count) => (count === 1 ? 'Qué haría este archivo' : `Qué harían estos ${String(count)} archivos`),
  piecesFirst: 'Cada uno se juzga por separado; los archivos de prendas van antes que los de pedidos.',
  storeAll: (records, files) =>
    `Guardar estos ${String(records)} de ${String(files)} ${files === 1 ? 'archivo' : 'archivos'}`,
  columns: { file: 'archivo', holds: 'contiene', state: 'estado' },
  would: (added, changed, unchanged, refused) =>
    `${plural(added, 'nuevo')}, ${plural(changed, 'cambiado')}, ${String(unchanged)} sin cambios, ${plural(refused, 'rechazado')}`,
  show: 'Qué haría, línea por línea',
  mapByHand: 'Decir qué columna es cuál, y cómo van los días y los decimales',
  mapTitle: (file) => `Qué columna de ${file} es cuál`,
  mapHow: 'Lo que diga aquí se guarda con un nombre, y desde entonces todo archivo con el mismo encabezado se lee así.',
  ourField: 'necesitamos',
  theirColumn: 'se toma de',
  firstValues: 'primeros valores',
  needed: 'necesario',
  nothing: 'nada',
  constant: 'siempre lo mismo…',
  constantFor: (field) => `Lo que siempre es: ${field}`,
  unitFor: (field) => `Unidad de: ${field}`,
  asHeaderOrShop: 'unidad según la columna o la tienda',
  columnNumber: (number, header, sample) =>
    `${header === '' ? '' : `${header}, `}columna ${String(number)}${sample === undefined ? '' : `: ${sample}`}`,
  sourceName: 'Nombre de esta fuente',
  sourceHint: 'por ejemplo: lista del mercado',
  decimals: 'Decimales',
  decimalMarks: { point: 'con punto: 12.50', comma: 'con coma: 12,50' },
  days: 'Días',
  asShop: 'como en los demás archivos de la tienda',
  save: 'Guardar esto y revisar el archivo',
  leave: 'Dejarlo',
  stillMissing: (fields) => `Aún sin columna: ${fields}.`,
  sources: 'Fuentes cuyas columnas se conocen',
  sourcesHow: 'Un archivo con el mismo encabezado se lee así: aquí, en la carpeta vigilada y en la línea de órdenes.',
  source: 'fuente',
  reads: 'campos',
  changedAt: 'cambiada',
  usedAt: 'último uso',
  never: 'nunca',
  edit: 'Cambiar',
  editFor: (source) => `Cambiar cómo se leen los archivos de ${source}`,
  remove: 'Olvidar',
  removeFor: (source) => `Olvidar cómo se leen los archivos de ${source}`,
  really: (source) => `Los archivos de «${source}» se leerán solo por los nombres de sus columnas. ¿Olvidar?`,
  keep: 'Conservar',
};

export const importWords: Readonly<Record<Language, ImportWords>> = { en, es };
