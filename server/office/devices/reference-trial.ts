import { referenceCheckDocument } from '#drivers/printer/documents/records.ts';
import { shopDayAndTime } from './shop-time.ts';
import type { Clock } from '#server/clock.ts';
import type { Station } from '#server/runs/station.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import { queueDocument } from '#server/printing/queue-document.ts';
import { saveReferenceCheck, type ReferenceCheck } from '#server/store/reference-checks.ts';
import type { ReferenceMass } from '#shared/weighing/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { addMass, formatMass, massFromBase, subtractMass } from '#shared/units/mass.ts';
import type { Language } from '#shared/words/language.ts';
import { toleranceOf } from '#shared/weighing/tolerance.ts';
import type { Reading } from '#shared/weighing/types.ts';

/** A reading further off than this share of the known mass is of something else, not of the known mass. */
const SOMETHING_ELSE_SHARE = 0.05;

export type TrialRefusal = 'no-reference' | 'packing' | 'pan-empty' | 'tare' | 'other-mass';

export interface TrialParts {
  readonly station: Station;
  readonly store: Store;
  readonly shop: Shop;
  readonly clock: Clock;
}

/**
 * Takes the load that lies settled on the pan for the bench's known mass, stores how far off the scale is, and queues
 * the record. Refused where no known mass is configured, a parcel is being weighed, or what lies there is another mass.
 */
export async function tryReference(
  { station, store, shop, clock }: TrialParts,
  language: Language,
): Promise<ReferenceCheck | TrialRefusal> {
  const { bench, devices } = station;
  const { reference } = bench.scale;
  if (reference === undefined) return 'no-reference';
  const { at } = station.run.state.step;
  if (at === 'weigh' || at === 'decide') return 'packing';
  const reading = devices.onPan();
  if (reading === null) return 'pan-empty';
  if (reading.net) return 'tare';
  const check = checkOf(reading, reference, bench.scale.accuracy, station.run.state.packer);
  if (Math.abs(check.deviation) > reference.mass * SOMETHING_ELSE_SHARE) return 'other-mass';
  const now = clock.now();
  const record = recordOf(check, { shop, bench: bench.name, language, now });
  await inTransaction(store, async (transaction) => {
    await saveReferenceCheck(transaction, bench.id, check, now);
    await queueDocument(transaction, bench, record, now);
  });
  await station.trust.load();
  station.printQueued();
  station.publish();
  return check;
}

function checkOf(
  reading: Reading,
  reference: ReferenceMass,
  accuracy: Station['bench']['scale']['accuracy'],
  who: string | null,
): ReferenceCheck {
  const deviation = subtractMass(reading.mass, reference.mass);
  // The scale may be off by its tolerance and half a division of its display, the known mass by its own figure.
  const allowed = addMass(
    toleranceOf(accuracy, reference.mass, reading.division),
    massFromBase(Math.ceil(reading.division / 2)),
    reference.plusMinus,
  );
  return {
    reference: reference.mass,
    plusMinus: reference.plusMinus,
    reading: reading.mass,
    unit: reading.unit,
    places: reading.places,
    deviation,
    allowed,
    passed: Math.abs(deviation) <= allowed,
    who,
  };
}

function recordOf(
  check: ReferenceCheck,
  { shop, bench, language, now }: { shop: Shop; bench: string; language: Language; now: number },
) {
  const unit = check.unit as Reading['unit'];
  const shown = (base: number, finer = 0) => formatMass(massFromBase(base), unit, check.places + finer, language);
  return referenceCheckDocument({
    language,
    shop: shop.name,
    bench,
    when: shopDayAndTime(now, shop.timeZone),
    who: shop.staff.find(({ id }) => id === check.who)?.name ?? '',
    reference: shown(check.reference),
    reading: shown(check.reading),
    difference: shown(check.deviation),
    allowed: shown(check.allowed, 2),
    passed: check.passed,
  });
}
