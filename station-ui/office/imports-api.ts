import type { ImportSource, SourceMapping } from '#shared/imports/source.ts';
import { LOOK_BYTES, type ImportLook } from '#shared/wire/imports.ts';
import { ask } from './api.ts';
import { sent } from './page-element.ts';

/** How files are looked at, and what was said of their sources. */
export const importsApi = {
  /** the beginning is enough to see the columns */
  look: (file: File) =>
    ask<ImportLook>('/api/imports/look', {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: file.slice(0, LOOK_BYTES),
    }),
  sources: () => ask<readonly ImportSource[]>('/api/import-sources'),
  saveSource: (mapping: SourceMapping) => ask<readonly ImportSource[]>('/api/import-sources', sent(mapping)),
  removeSource: (id: number) => ask<readonly ImportSource[]>(`/api/import-sources/${String(id)}/remove`, sent({})),
} as const;

export type ImportsApi = typeof importsApi;
