import type { FieldFrom, ImportSource } from '#shared/imports/source.ts';
import type { ImportPreview, ImportSubject } from './office.ts';

/** How a file would be read as pieces or as orders. */
export interface ImportReading {
  /** the source that its header belongs to */
  readonly source: ImportSource | null;
  /** as the source says, or as the columns' names suggest */
  readonly fields: Readonly<Record<string, FieldFrom>>;
  /** needed fields that nothing fills */
  readonly missing: readonly string[];
}

/** What the beginning of a file shows. */
export interface ImportLook {
  /** what it seems to hold; null when neither pieces nor orders can be read from it */
  readonly subject: ImportSubject | null;
  /** why it can be neither; null where it can */
  readonly problem: string | null;
  readonly encoding: ImportPreview['encoding'];
  readonly delimiter: ImportPreview['delimiter'];
  readonly header: readonly string[];
  /** the first values of each column */
  readonly samples: readonly (readonly string[])[];
  readonly readings: Readonly<Record<ImportSubject, ImportReading>>;
}

/**
 * HTTP contract:
 * POST /api/imports/look  body: the file's first 256 KiB -> ImportLook
 * GET  /api/import-sources -> ImportSource[]
 * POST /api/import-sources  body: SourceMapping -> ImportSource[]; one with the same header and subject is replaced
 * POST /api/import-sources/:id/remove -> ImportSource[]
 */
export const LOOK_BYTES = 256 * 1024;
