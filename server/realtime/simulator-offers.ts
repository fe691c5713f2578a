import { offerWords } from './offer-words.ts';
import { codesBeside } from './side-codes.ts';
import type { Station } from '#server/runs/station.ts';
import type { Store } from '#server/store/open.ts';
import { labelDue } from '#server/runs/label-due.ts';
import { carrierName } from '#server/office/hand-over/carriers.ts';
import { openOrders } from '#server/store/orders.ts';
import { waitingParcels } from '#server/store/sacks.ts';
import type { PrintedJob } from '#drivers/printer/mechanism.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { paperSvg } from '#drivers/printer/paper-svg.ts';
import { bagsOf } from '#shared/fitting/double-bag.ts';
import { gs1CheckDigit } from '#shared/codes/check-digits.ts';
import { commandCode, containerCode, orderCode, sackCode } from '#shared/codes/our-codes.ts';
import { missingPieces, parcelHere, titleOf } from '#shared/run/here.ts';
import type { RunState } from '#shared/run/types.ts';
import { languageOf } from '#shared/run/view/bench-view.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';
import type { SimulatorOffers } from '#shared/wire/events.ts';

type OfferedCode = SimulatorOffers['codes'][number];

const SLIPS_SHOWN = 3;
const LABELS_SHOWN = 1;

/**
 * What a hand could scan at this moment, right and wrong, and the newest slips drawn from the bytes that were printed.
 * @param locked a badge is what somebody signs in with: whoever packs is offered no other's
 */
export async function offersOf(station: Station, store: Store, shop: Shop, locked: boolean): Promise<SimulatorOffers> {
  const state = station.shownRun;
  const { printer } = station.devices.simulators;
  const { columns, dotsPerLine } = station.bench.printer;
  const slips = (printer?.jobs() ?? []).slice(-SLIPS_SHOWN).map((job) => ({ job, paper: { columns, dotsPerLine } }));
  const labels = (station.labels.simulator?.jobs() ?? []).slice(-LABELS_SHOWN).map((job) => ({
    job,
    paper: { columns: 48, dotsPerLine: station.bench.labelPrinter?.dotsPerLine ?? dotsPerLine },
  }));
  const printed = [...slips, ...labels].sort((one, other) => other.job.at - one.job.at);
  const codes = [
    ...(await codesHere(station, state, store, shop)),
    ...station.commands.map((command) => ({ label: command, text: commandCode(command) })),
    ...shop.staff
      .filter(({ id }) => !locked || id === state.packer)
      .map((member) => ({ label: member.name, text: member.badge })),
  ];
  return {
    codes,
    slips: printed.map(({ job, paper }) => ({ at: job.at, svg: drawn(job, paper) })),
  };
}

async function codesHere(station: Station, state: RunState, store: Store, shop: Shop): Promise<readonly OfferedCode[]> {
  if (station.side.active) return codesBeside(station.side.state, languageOf(state, shop));
  return practisesBetween(station, state) ? [] : codesOfStep(state, store, shop);
}

/** In practice no real order, parcel or sack is anybody's to scan. */
function practisesBetween({ practice }: Station, { step }: RunState): boolean {
  return practice.active && (step.at === 'idle' || step.at === 'done');
}

/** Drawn once: the same three slips are offered after every step. */
const drawings = new WeakMap<PrintedJob, string>();

function drawn(job: PrintedJob, paper: Parameters<typeof interpret>[1]): string {
  const known = drawings.get(job);
  if (known !== undefined) return known;
  const svg = paperSvg(interpret(job.bytes, paper));
  drawings.set(job, svg);
  return svg;
}

async function codesOfStep(state: RunState, store: Store, shop: Shop): Promise<readonly OfferedCode[]> {
  const language = languageOf(state, shop);
  const words = offerWords[language];
  switch (state.step.at) {
    case 'idle':
    case 'done': {
      const waiting = await openOrders(store, 4);
      const parcels = (await waitingParcels(store)).filter(({ sack, label }) => sack === null && label !== null);
      const carriers = [...new Set(shop.collections.map(({ carrier }) => carrier))];
      return [
        ...waiting.map(({ order }) => ({ label: words.order(order.id), text: orderCode(order.id) })),
        ...parcels.slice(0, 3).map(({ order, label }) => ({ label: words.parcel(order), text: label ?? '' })),
        ...carriers.map((carrier) => ({
          label: words.sack(carrierName(shop, carrier)[language]),
          text: sackCode(carrier),
        })),
      ];
    }
    case 'gather': {
      const missing = [...new Set(missingPieces(state))];
      const other = (await openOrders(store, 1)).flatMap(({ order }) => order.pieces.slice(0, 1));
      return [
        ...missing.map((sku) => ({ label: titleOf(state, sku), text: sku })),
        ...other.map((line) => ({ label: words.foreignPiece, text: line.sku })),
      ];
    }
    case 'fold': {
      const piece = parcelHere(state)?.pieces[state.step.piece]?.piece;
      return piece === undefined ? [] : [{ label: words.folded(piece.title), text: piece.sku }];
    }
    case 'fill': {
      const parcel = parcelHere(state);
      if (parcel === undefined) return [];
      return bagsOf(parcel.container).map((id) => {
        const name = shop.containers.get(id)?.name[language] ?? id;
        return { label: words.bin(name), text: containerCode(id) };
      });
    }
    case 'seal':
    case 'label':
      return labelCodes(state, language, await labelDue(store, state));
    default:
      return [];
  }
}

/** A label as a carrier prints it: GS1 (420) with the ship-to postcode, then a number with a good check digit. */
function labelCodes(state: RunState, language: Language, bought: string | null): readonly OfferedCode[] {
  const postcode = state.order?.to.postcode ?? '';
  const number = labelNumber(`${state.run ?? ''}${String(state.parcel)}`);
  const right = bought ?? number;
  // A number that was bought is offered as it is where no carrier's form is known for it.
  const text = /^9\d{19,33}$/.test(right) ? `]C1420${postcode}\u001d${right}` : right;
  return [
    { label: offerWords[language].label, text },
    { label: offerWords[language].foreignLabel, text: `]C142000501\u001d${number}` },
  ];
}

/** A 22-digit parcel number made from a text, so that each parcel of the demo has its own. */
function labelNumber(seed: string): string {
  let hash = 7n;
  for (const character of seed) hash = (hash * 131n + BigInt(character.codePointAt(0) ?? 0)) % 10n ** 17n;
  const digits = `9200${hash.toString().padStart(17, '0')}`;
  return `${digits}${String(gs1CheckDigit(digits))}`;
}
