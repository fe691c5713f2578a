import { code128, cut, feed, rule, text, type PrintDocument } from '#drivers/printer/document.ts';
import { encode } from '#drivers/printer/encode.ts';
import type { LabelRequest, LabelType } from '#shared/wire/label.ts';

/** 80 mm paper. */
const PAPER = { paper: 80, columns: 48, dotsPerLine: 576, cutter: true } as const;

/** An invented label that nobody would carry, as the first of what the bench accepts that it can draw. */
export function simulatedLabel(
  request: LabelRequest,
  number: string,
): { readonly type: LabelType; readonly bytes: Uint8Array } {
  const lines = [
    'PRACTICE LABEL - NOT FOR POST',
    request.to.name,
    ...request.to.address,
    `${request.to.postcode} ${request.to.country}`,
    `${request.service}  ${request.mass.amount} ${request.mass.unit}`,
  ];
  if (request.accepts[0] === 'escpos') {
    const blocks = [
      text(lines[0] ?? '', { bold: true }),
      ...lines.slice(1, -1).map((line) => text(line, { size: 'tall', bold: true })),
      text(lines.at(-1) ?? ''),
      rule,
      code128(number, 96),
      text(number, { align: 'center' }),
      feed(1),
      cut,
    ];
    const document: PrintDocument = { title: number, blocks };
    return { type: 'escpos', bytes: encode(document, PAPER) };
  }
  return { type: 'pdf', bytes: pdfOf([...lines, number]) };
}

/** One page of 4 by 6 inches with lines of Helvetica (ISO 32000-1). */
function pdfOf(lines: readonly string[]): Uint8Array {
  const escaped = (line: string) =>
    line
      .normalize('NFD')
      .replace(/[^\x20-\x7e]/g, '')
      .replace(/[\\()]/g, '\\$&');
  const drawn = lines.map((line) => `(${escaped(line)}) Tj T*`).join('\n');
  const content = `BT /F1 14 Tf 18 TL 18 396 Td\n${drawn}\nET`;
  const objects = [
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    '<< /Type /Page /Parent 2 0 R /MediaBox [0 0 288 432] /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> >>',
    `<< /Length ${String(content.length)} >>\nstream\n${content}\nendstream`,
    '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>',
  ];
  let pdf = '%PDF-1.4\n';
  const places = objects.map((object, index) => {
    const place = pdf.length;
    pdf += `${String(index + 1)} 0 obj\n${object}\nendobj\n`;
    return place;
  });
  const table = places.map((place) => `${String(place).padStart(10, '0')} 00000 n \n`).join('');
  const size = String(objects.length + 1);
  pdf += `xref\n0 ${size}\n0000000000 65535 f \n${table}trailer\n<< /Size ${size} /Root 1 0 R >>\nstartxref\n${String(pdf.length)}\n%%EOF\n`;
  return Buffer.from(pdf, 'latin1');
}
