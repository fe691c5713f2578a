import { Router } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { answerWithProgress } from './progress-lines.ts';
import { applyImport, previewAgainstStore } from '#server/office/import-service.ts';
import { PreviewShelf } from '#server/office/preview-shelf.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import type { ImportSubject } from '#shared/wire/office.ts';

/** some 400,000 lines */
const LARGEST_BYTES = 64 * 2 ** 20;

/** of a batch */
const MOST_BEFORE = 50;

/** Bringing pieces and orders in: a preview that stores nothing, then its application by id. */
export function importRoutes(parts: AppParts): Router {
  const { store, shops, clock, stations, labels, imports, uploads } = parts;
  const shelf = new PreviewShelf(clock);
  const routes = Router();
  routes.post('/imports/:subject/preview', async (request, response) => {
    const subject = subjectOf(request.params.subject);
    const fileName = fileNameOf(request.header('x-file-name')) ?? `${subject}.csv`;
    const needs = idsOf(request.query['after']);
    const after = shelf.before(needs);
    if (after === null) throw gone();
    const file = await uploads.receive(request, LARGEST_BYTES);
    try {
      await answerWithProgress(request, response, async (progress) => {
        const at = { store, shop: shops.current, clock, uploads };
        const language = LANGUAGES.find((each) => each === request.header('x-language'));
        const told = language === undefined ? {} : { language };
        const asked = { content: { path: file.path }, fileName, subject, after, ...told };
        const previewed = await previewAgainstStore(at, asked, progress).catch((error: unknown) => {
          throw isImportError(error) ? new HttpError(422, error.code, error.message) : error;
        });
        return shelf.put(previewed, needs);
      });
    } finally {
      await file.remove();
    }
  });
  routes.post('/imports/:id/apply', async (request, response) => {
    const { id } = request.params;
    const held = shelf.take(id);
    if (held === 'gone') throw gone();
    if (held === 'needs-others') {
      const message = 'The pieces that this file needs were not stored. Store them first, or choose the file again.';
      throw new HttpError(409, held, message);
    }
    await answerWithProgress(request, response, async (progress) => {
      const at = { store, shop: shops.current, clock };
      const applied = await imports.during(() => applyImport(at, held, progress)).finally(() => held.records.close());
      shelf.noteStored(id);
      await notes({ store, clock })(request, {
        what: held.subject === 'orders' ? 'orders-imported' : 'pieces-imported',
        about: '',
        details: { added: String(applied.added), changed: String(applied.changed) },
      });
      await labels.sendHeld();
      for (const station of stations.values()) station.publish();
      return applied;
    });
  });
  return routes;
}

/** The name as the page sends it, percent-encoded; a program may send it as it is. */
function fileNameOf(header: string | undefined): string | null {
  if (header === undefined || header === '') return null;
  try {
    return decodeURIComponent(header).slice(0, 200);
  } catch {
    return header.slice(0, 200);
  }
}

const gone = (): HttpError =>
  new HttpError(404, 'preview-gone', 'This preview is no longer here. Choose the file again.');

/** Previews that are to be stored before this file. */
function idsOf(query: unknown): readonly string[] {
  return typeof query === 'string' && query !== '' ? query.split(',').slice(0, MOST_BEFORE) : [];
}

function subjectOf(text: string): ImportSubject {
  if (text === 'pieces' || text === 'orders') return text;
  throw new HttpError(404, 'not-found', `Expected pieces or orders, found "${text}".`);
}
