import { join } from 'node:path';
import { appendFileSync } from 'node:fs';
import { HOSTILE_TEXTS } from './hostile-texts.ts';
import { copyOfConfig } from './config-folder.ts';
import type { Store } from '#server/store/open.ts';
import { saveOrder } from '#server/store/orders.ts';
import { saveParcel } from '#server/store/parcels.ts';
import { savePieces } from '#server/store/pieces.ts';
import type { Order } from '#shared/planning/types.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

/** The demo shop with somebody on its staff for each hostile text. */
export function hostileConfig(): string {
  const folder = copyOfConfig();
  const people = HOSTILE_TEXTS.map(
    ({ text }, index) =>
      `  zq-${String(index)}: { name: ${JSON.stringify(text.trim())}, badge: ZQ-BADGE-${String(index)}, language: en, role: packer }\n`,
  );
  appendFileSync(join(folder, 'staff.yaml'), people.join(''));
  return folder;
}

/** As a code can be printed: what of a text is printable ASCII. */
const codeOf = (text: string, index: number): string => `${text.replace(/[^!-~]/g, '').slice(0, 40)}#${String(index)}`;

/**
 * Orders, pieces and finished parcels whose every text is hostile, put into the store past the rules of an import, as if those
 * had missed something. Answers the ids of the orders.
 */
export async function seedHostile(store: Store, now: number): Promise<readonly string[]> {
  const ids: string[] = [];
  for (const [index, { text }] of HOSTILE_TEXTS.entries()) {
    const sku = codeOf(text, index);
    const id = codeOf(text, 1000 + index);
    await savePieces(store, [
      {
        sku,
        title: text,
        kind: 't-shirt',
        size: 'M',
        cloth: 'jersey',
        colour: text,
        place: text,
        value: money(1900, 'USD'),
      },
    ]);
    const order: Order = {
      id,
      pieces: [{ sku, count: 1 }],
      buyer: text,
      address: [text, text],
      to: { postcode: index % 2 === 0 ? '55802' : text, country: 'US' },
      shipBy: '2026-01-02T22:30:00.000Z',
      note: text,
    };
    await saveOrder(store, order, now);
    ids.push(id);
    await saveParcel(
      store,
      {
        order: id,
        run: `run-${String(index)}`,
        number: 1,
        of: 1,
        bench: 'bench-1',
        packer: `zq-${String(index)}`,
        pieces: [sku],
        container: 'pouch-10x13',
        wrap: 'none',
        recipes: [],
        carrier: 'merrow-post',
        service: 'light-parcel',
        zone: '4',
        planned: money(480, 'USD'),
        owed: money(480, 'USD'),
        reading: massFromGrams(300),
        readingUnit: 'oz',
        toCome: 0,
        ceiling: massFromGrams(340),
        uncertainty: massFromGrams(3),
        expectedGrams: 300,
        verdict: 'clear',
        because: null,
        decided: null,
        labelByEye: false,
        postcode: text,
        startedAt: now - 60_000,
      },
      text,
      now,
    );
  }
  return ids;
}
