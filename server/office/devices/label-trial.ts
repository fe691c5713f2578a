import { encodeWithReport } from '#drivers/printer/encode.ts';
import { documentFor, type DocumentParts } from './documents.ts';
import type { LabelPrinterConfig } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';

/** Letters that a label of receipt paper has in a line, in the printer's usual font. */
const COLUMNS = 48;

/**
 * A page that shows whether a label printer works, in the bytes that it takes. ZPL is a text; what would be a command in it is
 * left out.
 */
export async function labelTrial(
  printer: LabelPrinterConfig,
  language: Language,
  parts: DocumentParts,
): Promise<{ readonly bytes: Uint8Array; readonly title: string }> {
  const bench = {
    ...parts.bench,
    printer: { ...parts.bench.printer, columns: COLUMNS, dotsPerLine: printer.dotsPerLine },
  };
  const document = await documentFor({ what: 'test', language, ids: [] }, { ...parts, bench });
  if (document === null) throw new TypeError('expected a test page');
  const { title } = document;
  if (printer.speaks === 'escpos') return { title, bytes: encodeWithReport(document, bench.printer).bytes };
  const plain = (text: string) => text.replace(/[\^~]/g, ' ');
  const lines = [title, parts.shop.name, parts.bench.name].map(
    (text, index) => `^FO40,${String(40 + index * 60)}^A0N,40,40^FD${plain(text)}^FS`,
  );
  return { title, bytes: new TextEncoder().encode(`^XA^CI28${lines.join('')}^XZ`) };
}
