import { applyImport, previewAgainstStore, type ImportParts, type Previewed } from '#server/office/import-service.ts';
import { recordChange } from '#server/store/changes.ts';
import type { Change } from '#shared/audit/changes.ts';
import type { Content } from '#server/office/imports/content.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { lookAt } from '#server/office/imports/look.ts';
import { openTable } from '#server/office/imports/table.ts';
import { importSources } from '#server/store/import-sources.ts';
import { addIncoming, noteCounts } from '#server/store/incoming.ts';
import { problemLine } from '#shared/imports/incoming-text.ts';
import type { IncomingFile } from '#shared/wire/incoming.ts';
import type { ImportSubject } from '#shared/wire/office.ts';

const NOTHING = { added: 0, changed: 0, unchanged: 0, refused: 0 };

/** Whoever put it there is not known: the folder itself did it. */
function importedBy({ subject, preview: { counts } }: Previewed, file: string): Change {
  const what = subject === 'orders' ? 'orders-imported' : 'pieces-imported';
  const details = { added: String(counts.added), changed: String(counts.changed) };
  return { what, about: file, who: null, from: 'folder', details };
}

export interface FileToJudge {
  readonly name: string;
  readonly content: Content;
  readonly digest: string;
  /** where it is to be moved when it is stored, and when it is refused */
  readonly places: { readonly taken: string; readonly refused: string };
}

/**
 * Imports a file as a whole or not at all, and stores what became of it: when it is stored, in the same transaction from which
 * on all of it is.
 */
export async function judgeFile(parts: ImportParts, file: FileToJudge): Promise<IncomingFile['state']> {
  const { store, shop, clock } = parts;
  const { name, content, digest, places } = file;
  let subject: ImportSubject | null = null;
  let previewed: Previewed | null = null;
  const refuse = async (counts: IncomingFile['counts'], problems: readonly string[], source: string | null) => {
    const at = clock.now();
    const row = {
      name,
      digest,
      state: 'refused',
      movedTo: places.refused,
      subject,
      source,
      counts,
      problems,
      at,
    } as const;
    await addIncoming(store, row);
    return row.state;
  };
  try {
    const look = lookAt(await openTable(content), shop, await importSources(store));
    subject = look.subject;
    if (subject === null) return await refuse(NOTHING, [look.problem ?? ''], null);
    previewed = await previewAgainstStore(parts, { content, fileName: name, subject, language: shop.language });
    const { refused, counts, unchanged, source } = previewed.preview;
    if (counts.refused > 0)
      return await refuse({ ...NOTHING, refused: counts.refused }, refused.map(problemLine), source);
    const would = { added: counts.added, changed: counts.changed, unchanged, refused: 0 };
    const at = clock.now();
    const imported = importedBy(previewed, name);
    const applied = await applyImport(parts, previewed, undefined, async (transaction) => {
      await addIncoming(transaction, {
        ...{ name, digest, state: 'stored', movedTo: places.taken, subject, source, counts: would, problems: [], at },
      });
      if (would.added + would.changed > 0) await recordChange(transaction, imported, at);
    });
    if (applied.refused > 0) await noteCounts(store, digest, applied);
    return 'stored';
  } catch (error) {
    if (!isImportError(error)) throw error;
    return await refuse(NOTHING, [error.message], null);
  } finally {
    previewed?.records.close();
  }
}
