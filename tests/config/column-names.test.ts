import { expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { guessColumns } from '#server/office/imports/columns.ts';
import { fieldName } from '#station-ui/i18n/import-fields.ts';
import { IMPORT_FIELDS } from '#shared/imports/source.ts';
import { LANGUAGES } from '#shared/words/language.ts';

// Whoever writes a file by what the office shows must not be told that its columns are not known.
it.each(['config', 'config/demo-metric'])('%s knows every field by the name that the office shows', (folder) => {
  const { importAliases } = loadShop(folder);
  for (const subject of ['pieces', 'orders'] as const) {
    const fields: readonly string[] = IMPORT_FIELDS[subject];
    for (const language of LANGUAGES) {
      for (const field of fields) {
        const { all } = guessColumns([fieldName(field, language)], importAliases[subject], fields, []);
        expect(all[0]?.field, `${fieldName(field, language)} in ${folder}`).toBe(field);
      }
    }
  }
});
