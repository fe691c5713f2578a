import { describe, expect, test } from 'vitest';
import type { PrintDocument } from '#drivers/printer/document.ts';
import { commandCardsDocument, commandStripDocument } from '#drivers/printer/documents/command-cards.ts';
import { handOverDocument } from '#drivers/printer/documents/hand-over.ts';
import { binLabelDocument, pieceLabelsDocument } from '#drivers/printer/documents/labels.ts';
import { referenceCheckDocument, trainingCertificateDocument } from '#drivers/printer/documents/records.ts';
import { encode } from '#drivers/printer/encode.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { plainText } from '#drivers/printer/paper.ts';
import { PAPER_WORDS } from '#drivers/printer/words.ts';
import { COMMANDS } from '#shared/run/commands.ts';
import { PAPER_58, PAPER_80 } from './support.ts';

const onPaper = (document: PrintDocument, settings = PAPER_80) => interpret(encode(document, settings), settings);
const words = (document: PrintDocument): string => plainText(onPaper(document));
const codes = (document: PrintDocument, settings = PAPER_80): readonly string[] =>
  onPaper(document, settings).rows.flatMap((each) => (each.kind === 'code128' ? [each.text] : []));

const cards = COMMANDS.map((command) => ({ code: `DO-${command.toUpperCase()}`, name: command }));

describe('command cards', () => {
  test('one card for each command, each with its own code and a cut after it', () => {
    const document = commandCardsDocument('Commands', cards);
    expect(codes(document)).toEqual(cards.map((card) => card.code));
    expect(onPaper(document).rows.filter((each) => each.kind === 'cut')).toHaveLength(cards.length);
  });
  test('a strip has them all and one cut', () => {
    const document = commandStripDocument('Commands', cards);
    expect(codes(document)).toEqual(cards.map((card) => card.code));
    expect(onPaper(document).rows.filter((each) => each.kind === 'cut')).toHaveLength(1);
  });
  test('short codes fit the narrow paper', () => {
    expect(codes(commandCardsDocument('Commands', [{ code: 'DO-NEXT', name: 'next' }]), PAPER_58)).toEqual(['DO-NEXT']);
  });
});

test('bin and piece labels carry their code once as bars and once as text', () => {
  const label = { code: 'BIN-P1013', name: 'Pouch 10 x 13', lines: ['Shelf B'] };
  for (const document of [binLabelDocument(label), pieceLabelsDocument('Pieces', [label])]) {
    expect(codes(document)).toEqual(['BIN-P1013']);
    expect(words(document)).toContain('Shelf B');
    expect(words(document).match(/BIN-P1013/g)).toHaveLength(2);
  }
});

test('the hand-over sheet lists every parcel, counts them and has lines to sign on', () => {
  const parcels = Array.from({ length: 12 }, (_, index) => ({
    order: `O-${1000 + index}`,
    number: `9212391234567812345${index}`,
    service: 'Merrow Light',
    weight: '15.9 oz',
  }));
  const sheet = words(
    handOverDocument({
      language: 'es',
      shop: 'Oddment & Thrum',
      carrier: 'Merrow Post',
      day: '2026-11-25',
      collection: '16:30',
      parcels,
      totalWeight: '11.9 lb',
    }),
  );
  for (const parcel of parcels) {
    expect(sheet).toContain(parcel.order);
    expect(sheet).toContain(parcel.number);
  }
  expect(sheet).toMatch(/Paquetes +12\n/);
  expect(sheet).toContain('Recibido por:');
});

test('a reference check that failed is a warning, one that passed is not', () => {
  const data = {
    language: 'en',
    shop: 'Oddment & Thrum',
    bench: 'Bench 1',
    when: '2026-11-25 08:02',
    who: 'Ada',
    reference: '32.0 oz',
    reading: '32.3 oz',
    difference: '0.3 oz',
    allowed: '0.1 oz',
  } as const;
  expect(words(referenceCheckDocument({ ...data, passed: false })).replace(/\s+/g, ' ')).toContain(
    'DO NOT WEIGH WITH THIS SCALE',
  );
  expect(words(referenceCheckDocument({ ...data, passed: true }))).toContain('Within the allowed difference');
});

test('a training certificate names the person and what was learned', () => {
  const paper = words(
    trainingCertificateDocument({
      language: 'en',
      shop: 'Oddment & Thrum',
      name: 'Nils Ortega',
      day: '2026-11-25',
      learned: ['Fold a shirt', 'Weigh'],
      supervisor: 'Ada',
    }),
  );
  expect(paper).toContain('Nils Ortega');
  expect(paper).toContain('- Fold a shirt');
});

test('every word on paper exists in both languages and can be printed', () => {
  for (const language of ['en', 'es'] as const) {
    for (const entry of Object.values(PAPER_WORDS[language]) as (string | ((...values: string[]) => string))[]) {
      const word = typeof entry === 'string' ? entry : entry('3', '12');
      expect(word).not.toBe('');
      expect(
        words({ title: 'w', blocks: [{ kind: 'text', text: word, size: 'normal', bold: false, align: 'left' }] }),
      ).toBe(word);
    }
  }
  const same = (Object.keys(PAPER_WORDS.en) as (keyof typeof PAPER_WORDS.en)[]).filter(
    (key) => PAPER_WORDS.en[key] === PAPER_WORDS.es[key],
  );
  // One word of both languages.
  expect(same).toEqual(['total']);
});
