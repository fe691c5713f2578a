import type { Command } from './command.ts';
import { languageOption } from './language-option.ts';
import { shopOption } from './shop-option.ts';
import { withShopStore } from './shop-store.ts';
import { table } from './table.ts';
import { keptOfPeople, type KeptOfPeople } from '#server/privacy/tell-kept.ts';
import { DEFAULT_KEEP_DAYS } from '#shared/proof/types.ts';
import type { Language } from '#shared/words/language.ts';

const WORDS = {
  en: {
    head: ['whose', 'what', 'table: columns', 'rows', 'kept'],
    whose: { buyer: 'buyers', staff: 'people who work here' },
    people: (buyers: number, staff: number) =>
      `${String(buyers)} buyers by name, ${String(staff)} people in staff.yaml`,
    byAge: (days: number | null) =>
      days === null
        ? 'Buyers’ data are kept until somebody asks for their removal (privacy.buyersDays in shop.yaml names a time).'
        : `Buyers’ data go by themselves ${String(days)} days after an order was packed or cancelled.`,
    files: {
      photos: 'photos',
      recordings: 'recorded voices',
      incoming: 'files of the watched folder',
      backups: 'backups, which hold what they held',
    },
    fileCount: (files: number, bytes: number) => `${String(files)} files, ${(bytes / 2 ** 20).toFixed(1)} MB`,
    photoDays: (days: number) => `kept ${String(days)} days`,
  },
  es: {
    head: ['de quién', 'qué', 'tabla: columnas', 'filas', 'se guarda'],
    whose: { buyer: 'compradores', staff: 'quienes trabajan aquí' },
    people: (buyers: number, staff: number) =>
      `${String(buyers)} compradores por su nombre, ${String(staff)} personas en staff.yaml`,
    byAge: (days: number | null) =>
      days === null
        ? 'Los datos de los compradores se guardan hasta que se pide que se eliminen (privacy.buyersDays de shop.yaml fija un plazo).'
        : `Los datos de los compradores se eliminan solos ${String(days)} días después de empaquetar o cancelar un pedido.`,
    files: {
      photos: 'fotos',
      recordings: 'voces grabadas',
      incoming: 'archivos de la carpeta vigilada',
      backups: 'copias de seguridad, con lo que tenían',
    },
    fileCount: (files: number, bytes: number) => `${String(files)} archivos, ${(bytes / 2 ** 20).toFixed(1)} MB`,
    photoDays: (days: number) => `se guardan ${String(days)} días`,
  },
} as const satisfies Readonly<Record<Language, object>>;

/** What is kept of people: whose, where, how much and how long, as the office page has it; nobody's data themselves. */
export const personalDataCommand: Command = {
  usage: 'personal-data [--data DIR] [--config DIR] [--language en|es]',
  options: ['data', 'config', 'language'],
  async run(options, surroundings) {
    const shop = shopOption(options, surroundings);
    const language = languageOption(options, shop);
    const kept = await withShopStore(options, surroundings, keptOfPeople);
    const buyersDays = shop.privacy?.buyersDays ?? null;
    const photoDays = shop.proof?.keepDays ?? DEFAULT_KEEP_DAYS;
    return {
      document: { staff: shop.staff.length, buyersDays, photoDays, ...kept },
      text: told(kept, shop.staff.length, buyersDays, photoDays, language),
      complaints: [],
    };
  },
};

function told(
  { buyers, kept, files }: KeptOfPeople,
  staff: number,
  buyersDays: number | null,
  photoDays: number,
  language: Language,
): string {
  const words = WORDS[language];
  return [
    table(
      words.head,
      kept.map(({ whose, what, table: name, columns, rows, until }) => [
        words.whose[whose],
        what[language],
        `${name}: ${columns.join(', ')}`,
        String(rows),
        until[language],
      ]),
    ),
    words.people(buyers, staff),
    words.byAge(buyersDays),
    ...files.map(({ folder, files: count, bytes }) => {
      const line = `${words.files[folder]}: ${words.fileCount(count, bytes)}`;
      return folder === 'photos' ? `${line}, ${words.photoDays(photoDays)}` : line;
    }),
  ].join('\n');
}
