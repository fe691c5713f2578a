import { commandCardsDocument, commandStripDocument } from '#drivers/printer/documents/command-cards.ts';
import { binLabelDocument, pieceLabelsDocument } from '#drivers/printer/documents/labels.ts';
import { trainingCertificateDocument } from '#drivers/printer/documents/records.ts';
import { testPageDocument } from '#drivers/printer/documents/test-page.ts';
import type { PrintDocument } from '#drivers/printer/document.ts';
import { PAPER_WORDS } from '#drivers/printer/words.ts';
import { calendarDay } from '#server/calendar.ts';
import type { Store } from '#server/store/open.ts';
import { findPieces } from '#server/store/pieces.ts';
import { commandCode, containerCode } from '#shared/codes/our-codes.ts';
import { COMMANDS } from '#shared/run/commands.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import { formatMassPlain } from '#shared/units/mass.ts';
import { PHRASES } from '#shared/voice/phrases.ts';
import type { Language } from '#shared/words/language.ts';
import type { Printable } from '#shared/wire/devices.ts';

export interface DocumentRequest {
  readonly what: Printable;
  readonly language: Language;
  /** containers (all when left out), SKUs, or for a certificate the name, who says so, and what was learned */
  readonly ids: readonly string[];
}

export interface DocumentParts {
  readonly store: Store;
  readonly shop: Shop;
  readonly bench: BenchConfig;
  readonly now: number;
}

/** The document that was asked for; null when nothing of what was named exists. */
export async function documentFor(request: DocumentRequest, parts: DocumentParts): Promise<PrintDocument | null> {
  const { shop, bench, now } = parts;
  const { language } = request;
  const words = PAPER_WORDS[language];
  const cards = COMMANDS.map((command) => ({ code: commandCode(command), name: PHRASES[language][command] }));
  switch (request.what) {
    case 'test':
      return testPageDocument({
        language,
        shop: shop.name,
        bench: bench.name,
        when: calendarDay(now, shop.timeZone),
        columns: bench.printer.columns,
        code: commandCode('repeat'),
      });
    case 'command-cards':
      return commandCardsDocument(words.commandCards, cards);
    case 'command-strip':
      return commandStripDocument(words.commandCards, cards);
    case 'bin-labels':
      return binLabels(request, parts);
    case 'piece-labels':
      return pieceLabels(request, parts);
    case 'certificate':
      return certificate(request, parts);
  }
}

/** Who has learned the bench, who says so, and what was learned. */
function certificate({ language, ids }: DocumentRequest, { shop, now }: DocumentParts): PrintDocument | null {
  const [name, supervisor = '', ...learned] = ids;
  if (name === undefined) return null;
  const day = calendarDay(now, shop.timeZone);
  return trainingCertificateDocument({ language, shop: shop.name, name, day, learned, supervisor });
}

function binLabels({ language, ids }: DocumentRequest, { shop }: DocumentParts): PrintDocument | null {
  const wanted = [...shop.containers.values()].filter(({ id }) => ids.length === 0 || ids.includes(id));
  if (wanted.length === 0) return null;
  const blocks = wanted.flatMap((container) => {
    const label = {
      code: containerCode(container.id),
      name: container.name[language],
      lines: [formatMassPlain(container.mass, shop.units.mass, language)],
    };
    return binLabelDocument(label).blocks;
  });
  return { title: PAPER_WORDS[language].binLabels, blocks };
}

async function pieceLabels(
  { language, ids }: DocumentRequest,
  { store }: DocumentParts,
): Promise<PrintDocument | null> {
  const pieces = [...(await findPieces(store, ids)).values()];
  if (pieces.length === 0) return null;
  const labels = pieces.map((piece) => ({
    code: piece.sku,
    name: piece.title,
    lines: [piece.place ?? ''].filter((line) => line !== ''),
  }));
  return pieceLabelsDocument(PAPER_WORDS[language].pieceLabels, labels);
}
