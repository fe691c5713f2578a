import { draftCard, type Draft } from './draft.ts';
import { replaceFiles } from './card-files.ts';
import { priceDifference } from './price-difference.ts';
import { ConfigError } from '#config/config-error.ts';
import { loadShop, reportOn, type ChangedFiles } from '#config/load.ts';
import type { Clock } from '#server/clock.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { Store } from '#server/store/open.ts';
import { cellName } from '#shared/rating/import/cell.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type {
  ConfigProblem,
  PreviewCell,
  PriceDifference,
  RateApplied,
  RateImport,
  RatePreview,
} from '#shared/wire/rates.ts';

export interface RateImportParts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly clock: Clock;
}

/** A list that cannot be used as it is; the preview says why. */
export class NotReady extends Error {
  override readonly name = 'NotReady';
  readonly code: 'not-ready' | 'shop-would-not-load' | 'not-written';
  /** what keeps the shop from loading */
  readonly problems: readonly ConfigProblem[] | undefined;

  constructor(code: NotReady['code'], message: string, problems?: readonly ConfigProblem[]) {
    super(message);
    this.code = code;
    this.problems = problems;
  }
}

/**
 * What a price list is understood as, what it would change, and what that means for the parcels of the last 30 days.
 * @throws ImportError or TableError when there is no table at all
 */
export async function previewRates({ store, shops, clock }: RateImportParts, asked: RateImport): Promise<RatePreview> {
  const shop = shops.current;
  const draft = draftCard(asked, shop, shops.folder);
  const report = draft.changed === null ? { problems: [], warnings: [] } : reportOn(shops.folder, draft.changed);
  const loads = draft.changed !== null && report.problems.length === 0;
  const { formProblems, chartProblems, grid } = draft;
  return {
    cells: previewCells(draft),
    zones: grid.zones.map(({ zone }) => zone),
    rows: grid.rows.length,
    problems: grid.problems,
    chartProblems,
    formProblems,
    yaml: draft.yaml,
    file: draft.file,
    exists: draft.exists,
    ends: draft.ends,
    configProblems: report.problems,
    configWarnings: report.warnings.filter(({ file }) => file === draft.file),
    difference: loads ? await difference({ store, shop, now: clock.now() }, asked, draft, shops.folder) : null,
    ready: loads && formProblems.length === 0,
  };
}

function previewCells({ table, grid }: Draft): readonly (readonly PreviewCell[])[] {
  const known = new Map(grid.cells.map((cell) => [cell.cell, cell.as]));
  const problems = new Map<string, number[]>();
  for (const [index, { cell }] of grid.problems.entries()) problems.set(cell, [...(problems.get(cell) ?? []), index]);
  return table.map((row, index) =>
    row.map((text, column) => {
      const name = cellName(index, column);
      return { text, as: known.get(name) ?? 'unused', problems: problems.get(name) ?? [] };
    }),
  );
}

async function difference(
  parts: { readonly store: Store; readonly shop: Shop; readonly now: number },
  asked: RateImport,
  draft: Draft,
  folder: string,
): Promise<PriceDifference | null> {
  const { before } = draft;
  if (before === null || draft.changed === null) return null;
  const fresh = loadShop(folder, draft.changed);
  const after = fresh.rates.cards.find(
    (card) =>
      card.carrier === asked.carrier &&
      card.from === asked.from &&
      card.services.some(({ id }) => id === asked.service),
  );
  if (after === undefined) return null;
  return priceDifference(
    parts,
    asked.service,
    { ...before, book: parts.shop.rates },
    { card: after, book: fresh.rates, day: asked.from },
  );
}

/**
 * Writes the new card, ends the service on the card before, and lets the running shop use it. When the shop would not load,
 * every file is as it was.
 * @throws ImportError or TableError; NotReady
 */
export function applyRates({ shops, clock }: RateImportParts, asked: RateImport): RateApplied {
  const draft = draftCard(asked, shops.current, shops.folder);
  if (draft.changed === null || draft.file === null || draft.formProblems.length > 0) {
    throw new NotReady('not-ready', whyNot(draft));
  }
  wouldLoad(shops.folder, draft.changed);
  const replaced = written(shops.folder, draft.changed, clock);
  try {
    const shop = shops.reload();
    const services = shop.rates.cards.reduce((sum, card) => sum + card.services.length, 0);
    return { file: draft.file, kept: replaced.kept, services };
  } catch (error) {
    replaced.undo();
    if (error instanceof ConfigError) throw new NotReady('shop-would-not-load', error.message, error.problems);
    throw error;
  }
}

function whyNot({ grid, chartProblems, formProblems }: Draft): string {
  const cells = [...grid.problems, ...chartProblems].map(
    ({ cell, expected, found }) => `${cell}: expected ${expected}, found "${found}"`,
  );
  const fields = formProblems.map(({ field, code, found }) => `${field}: ${code}, found "${found}"`);
  return [...fields, ...cells].join('\n');
}

function wouldLoad(folder: string, changed: ChangedFiles): void {
  try {
    loadShop(folder, changed);
  } catch (error) {
    if (error instanceof ConfigError) throw new NotReady('shop-would-not-load', error.message, error.problems);
    throw error;
  }
}

function written(folder: string, changed: ChangedFiles, clock: Clock): ReturnType<typeof replaceFiles> {
  const stamp = new Date(clock.now()).toISOString().slice(0, 19).replace(/[-:]/g, '').replace('T', '-');
  try {
    return replaceFiles(folder, changed, stamp);
  } catch (error) {
    if (error instanceof Error && 'code' in error) throw new NotReady('not-written', error.message);
    throw error;
  }
}
