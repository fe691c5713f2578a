import type { Language } from '#shared/words/language.ts';

export interface BackupsWords {
  readonly title: string;
  readonly how: (folder: string, every: number | null) => string;
  readonly elsewhere: string;
  readonly now: string;
  readonly making: string;
  readonly last: (when: string, ago: string) => string;
  readonly none: string;
  readonly old: string;
  readonly failed: (when: string, why: string) => string;
  readonly proven: string;
  readonly columns: {
    readonly made: string;
    readonly age: string;
    readonly orders: string;
    readonly parcels: string;
    readonly files: string;
    readonly check: string;
    readonly where: string;
  };
  readonly restoring: string;
  readonly attention: string;
}

const en: BackupsWords = {
  title: 'Backups',
  how: (folder, every) =>
    every === null
      ? `None is made by itself. They lie in ${folder}; best on another disk, or copied to one.`
      : `One is made every ${String(every)} h while the benches go on. They lie in ${folder}; best on another disk, or copied to one.`,
  elsewhere: 'The store lies in a database elsewhere; it is backed up there.',
  now: 'Back up now',
  making: 'Being made and proven …',
  last: (when, ago) => `The last one is of ${when}, ${ago} ago.`,
  none: 'There is none yet.',
  old: 'The last backup is too old.',
  failed: (when, why) => `The last try, ${when}, went wrong: ${why}`,
  proven: 'restored for trial, the same',
  columns: {
    made: 'Made',
    age: 'Age',
    orders: 'Orders',
    parcels: 'Parcels',
    files: 'Files',
    check: 'Check',
    where: 'Folder',
  },
  restoring: 'To go on from one: stop the server, then',
  attention: 'The shop is not backed up',
};

const es: BackupsWords = {
  title: 'Copias de seguridad',
  how: (folder, every) =>
    every === null
      ? `No se hace ninguna automáticamente. Están en ${folder}; mejor en otro disco, o copiadas a otro.`
      : `Se hace una cada ${String(every)} h mientras las mesas siguen. Están en ${folder}; mejor en otro disco, o copiadas a otro.`,
  elsewhere: 'Los datos están en una base de datos aparte; la copia se hace allí.',
  now: 'Hacer una copia ahora',
  making: 'Haciéndola y comprobándola …',
  last: (when, ago) => `La última es de ${when}, hace ${ago}.`,
  none: 'Todavía no hay ninguna.',
  old: 'La última copia es demasiado antigua.',
  failed: (when, why) => `El último intento, ${when}, falló: ${why}`,
  proven: 'restaurada de prueba, igual',
  columns: {
    made: 'Hecha',
    age: 'Edad',
    orders: 'Pedidos',
    parcels: 'Paquetes',
    files: 'Archivos',
    check: 'Comprobación',
    where: 'Carpeta',
  },
  restoring: 'Para seguir desde una: pare el servidor y después',
  attention: 'La tienda no tiene copia de seguridad reciente',
};

export const backupsWords: Readonly<Record<Language, BackupsWords>> = { en, es };
