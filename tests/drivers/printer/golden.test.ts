import { describe, expect, test } from 'vitest';
import type { PrintDocument } from '#drivers/printer/document.ts';
import { commandCardsDocument, commandStripDocument } from '#drivers/printer/documents/command-cards.ts';
import { copyMarkDocument } from '#drivers/printer/documents/copy-mark.ts';
import { handOverDocument } from '#drivers/printer/documents/hand-over.ts';
import { binLabelDocument, pieceLabelsDocument } from '#drivers/printer/documents/labels.ts';
import { orderListDocument } from '#drivers/printer/documents/order-list.ts';
import { referenceCheckDocument, trainingCertificateDocument } from '#drivers/printer/documents/records.ts';
import { sackCardsDocument } from '#drivers/printer/documents/sack-cards.ts';
import { slipDocument } from '#drivers/printer/documents/slip.ts';
import { testPageDocument } from '#drivers/printer/documents/test-page.ts';
import { encode, type PaperSettings } from '#drivers/printer/encode.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { plainText } from '#drivers/printer/paper.ts';
import { PAPER_WORDS } from '#drivers/printer/words.ts';
import { commandCode, containerCode, sackCode } from '#shared/codes/our-codes.ts';
import { PHRASES } from '#shared/voice/phrases.ts';
import type { Language } from '#shared/words/language.ts';
import { PAPER_58, PAPER_80, SLIP, WARNING } from './support.ts';

/*
 * Every document through its bytes and back, against a text that somebody has looked at. After a wanted change:
 * `npx vitest run --project core tests/drivers/printer/golden.test.ts -u`, and look at what changed.
 */
const documents = (language: Language): Readonly<Record<string, PrintDocument>> => {
  const words = PAPER_WORDS[language];
  // A short, a middling and the longest one; that there is a card for every command is tested beside this.
  const cards = (['next', 'set-aside', 'pay-next-bracket'] as const).map((command) => ({
    code: commandCode(command),
    name: PHRASES[language][command],
  }));
  const bin = { code: containerCode('merrow-padded-flat'), name: 'Padded envelope', lines: ['0.9 oz'] };
  return {
    slip: slipDocument({ ...SLIP, language }),
    'slip-close': slipDocument({ ...SLIP, language, warning: WARNING }),
    'slip-over': slipDocument({ ...SLIP, language, warning: { ...WARNING, verdict: 'over' } }),
    'copy-mark': copyMarkDocument({ language, of: `${words.packingSlip} O-1047`, when: '2026-11-25 14:02' }),
    'command-cards': commandCardsDocument(words.commandCards, cards),
    'command-strip': commandStripDocument(words.commandCards, cards),
    'bin-label': binLabelDocument(bin),
    'piece-labels': pieceLabelsDocument(words.pieceLabels, [
      { code: 'WK-0031', name: 'Wool cardigan, moss green', lines: ['B4'] },
      { code: 'WK-0107', name: 'Corduroy work shirt with a very long title', lines: [] },
    ]),
    'hand-over': handOverDocument({
      language,
      shop: 'Oddment & Thrum',
      carrier: 'Merrow Post',
      day: '2026-11-25',
      collection: '16:30',
      parcels: [
        { order: 'O-1047', number: '9212391234567812345670', service: 'Merrow Light', weight: '15.9 oz' },
        { order: 'O-1048', number: '-', service: 'Merrow Light', weight: '7.2 oz' },
      ],
      totalWeight: '1.4 lb',
    }),
    'sack-cards': sackCardsDocument(words.sackCards, [
      { code: sackCode('merrow-post'), carrier: 'Merrow Post', times: '16:30, 18:00' },
      { code: sackCode('overfield-ground'), carrier: 'Overfield Ground', times: '17:15' },
    ]),
    'order-list': orderListDocument({
      language,
      shop: 'Oddment & Thrum',
      day: '2026-11-25',
      lines: [{ name: 'Pouch 10 x 13 in', packs: '3 × 100', cost: '$41.70', left: words.left('22', '4') }],
      total: '$41.70',
    }),
    'reference-check': referenceCheckDocument({
      language,
      shop: 'Oddment & Thrum',
      bench: 'Bench 1',
      when: '2026-11-25 08:02',
      who: 'Ada',
      reference: '16.0 oz',
      reading: '16.3 oz',
      difference: '0.3 oz',
      allowed: '0.155 oz',
      passed: false,
    }),
    certificate: trainingCertificateDocument({
      language,
      shop: 'Oddment & Thrum',
      name: 'Nils Ortega',
      day: '2026-11-25',
      learned: ['Fold a shirt', 'Weigh'],
      supervisor: 'Ada',
    }),
    'test-page': testPageDocument({
      language,
      shop: 'Oddment & Thrum',
      bench: 'Bench 1',
      when: '2026-11-25',
      columns: language === 'en' ? PAPER_80.columns : PAPER_58.columns,
      code: commandCode('repeat'),
    }),
  };
};

describe.each([
  ['en', '80', PAPER_80],
  ['es', '58', PAPER_58],
] as const)('in %s on %s mm', (language: Language, width: string, settings: PaperSettings) => {
  test.each(Object.entries(documents(language)))('%s', async (name, document) => {
    const paper = interpret(encode(document, settings), settings);
    expect(paper.unknown).toEqual([]);
    expect(paper.drawerOpened).toBe(false);
    await expect(`${plainText(paper)}\n`).toMatchFileSnapshot(`../../fixtures/paper/${name}.${language}.${width}.txt`);
  });
});
