import type { Language } from '#shared/words/language.ts';
import { cut, feed, row, rule, text, type PrintDocument } from '../document.ts';
import { PAPER_WORDS } from '../words.ts';

/** The scale tried with a known mass. All texts are ready to print. */
export interface ReferenceCheckData {
  readonly language: Language;
  readonly shop: string;
  readonly bench: string;
  readonly when: string;
  readonly who: string;
  readonly reference: string;
  readonly reading: string;
  readonly difference: string;
  readonly allowed: string;
  readonly passed: boolean;
}

/** The record of a daily reference check, to be kept by the scale. */
export function referenceCheckDocument(data: ReferenceCheckData): PrintDocument {
  const words = PAPER_WORDS[data.language];
  return {
    title: `${words.referenceCheck} ${data.when}`,
    blocks: [
      text(words.referenceCheck, { size: 'wide', bold: true }),
      text(`${data.shop} · ${data.bench}`),
      row(data.who, data.when),
      rule,
      row(words.knownMass, data.reference),
      row(words.scaleShows, data.reading),
      row(words.difference, data.difference, true),
      row(words.allowed, `± ${data.allowed}`),
      data.passed ? text(words.passed, { bold: true }) : { kind: 'warning', text: words.notPassed },
      feed(1),
      cut,
    ],
  };
}

/** Somebody has learned the bench. All texts are ready to print. */
export interface TrainingCertificateData {
  readonly language: Language;
  readonly shop: string;
  readonly name: string;
  readonly day: string;
  readonly learned: readonly string[];
  readonly supervisor: string;
}

export function trainingCertificateDocument(data: TrainingCertificateData): PrintDocument {
  const words = PAPER_WORDS[data.language];
  return {
    title: `${words.trained} ${data.name}`,
    blocks: [
      text(data.shop, { align: 'center' }),
      text(data.name, { size: 'big', bold: true, align: 'center' }),
      text(words.trained, { align: 'center' }),
      rule,
      ...data.learned.map((each) => text(`- ${each}`)),
      rule,
      row(data.day, data.supervisor),
      feed(2),
      rule,
      text(words.signature),
      feed(1),
      cut,
    ],
  };
}
