import { HttpError } from './http-error.ts';
import type { PrintDocument } from '#drivers/printer/document.ts';
import { encodeWithReport, type Encoded } from '#drivers/printer/encode.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { paperSvg } from '#drivers/printer/paper-svg.ts';
import type { Clock } from '#server/clock.ts';
import type { Station } from '#server/runs/station.ts';
import type { Store } from '#server/store/open.ts';
import { addPrintJob } from '#server/store/print-jobs.ts';
import type { PrintPreview } from '#shared/wire/devices.ts';

/**
 * A document on the paper of a bench, and in its print queue when it is to be printed.
 * @throws HttpError 422 for a code that is too wide for the paper: the request's fault, not the server's
 */
export async function printDocument(
  document: PrintDocument,
  parts: { readonly store: Store; readonly station: Station; readonly clock: Clock; readonly print: boolean },
): Promise<PrintPreview> {
  const { store, station, clock, print } = parts;
  const { bytes, replaced } = encoded(() => encodeWithReport(document, station.bench.printer));
  if (print) {
    const job = { bench: station.bench.id, run: null, parcel: 0, bytes, title: document.title, now: clock.now() };
    await addPrintJob(store, { ...job, replaced: replaced.join(' ') });
    station.printQueued();
  }
  const svg = paperSvg(interpret(bytes, station.bench.printer));
  return { title: document.title, svg, bytes: bytes.length, replaced, queued: print };
}

function encoded(encode: () => Encoded): Encoded {
  try {
    return encode();
  } catch (error) {
    if (error instanceof Error && error.name === 'PrintError') throw new HttpError(422, 'not-printable', error.message);
    throw error;
  }
}
