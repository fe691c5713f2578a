import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { seedDemo } from '#server/office/demo.ts';
import { report, reportCsv } from '#server/office/reports/report.ts';
import { saveCorrections } from '#server/store/corrections.ts';
import type { Store } from '#server/store/open.ts';
import { openOrders, saveOrder } from '#server/store/orders.ts';
import { allParcels } from '#server/store/parcels.ts';
import { REPORT_BY } from '#shared/reports/report.ts';
import type { RunInput } from '#shared/run/types.ts';
import { addMass, massFromBase, massFromGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { benchRun, finish, give, onTo, take } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const shop = loadShop('config');
let now = Date.parse('2026-11-25T15:00:00Z');
const clock = { now: () => now };
const data = temporaryFolder('report');
let store: Store;

beforeAll(async () => {
  store = await openTestStore(data.path);
  await seedDemo('config', shop, store, clock);
  const run = benchRun({ store, shop, clock });
  await run.apply({ type: 'scan', meaning: { means: 'staff', text: 'x', staff: 'tobias' }, by: 'scan' });
  const orders = (await openOrders(store, 6)).map(({ order }) => order);
  for (const [index, order] of orders.entries()) {
    const { paidPostage: _, ...unpaid } = order;
    await saveOrder(store, index < 3 ? { ...unpaid, paidPostage: money(700 + index, 'USD') } : unpaid, now);
    await take(run, order.id);
    if (index === 5) {
      // Right under the ceiling: close, and the next bracket is paid.
      await onTo(run, 'weigh');
      const parcel = run.state.parcels[0];
      const ceiling = parcel?.offer.bracketCeiling ?? massFromGrams(0);
      const mass = massFromBase(ceiling - (parcel?.toCome.mass ?? 0));
      const reading = {
        mass,
        unit: 'oz',
        places: 1,
        division: massFromGrams(1),
        stability: 'still',
        net: false,
      } as const;
      const input: RunInput = { type: 'reading', reading: { ...reading, condition: 'ok', at: now } };
      await run.apply(input);
      if (run.state.step.at === 'decide') await give(run, 'weigh-again');
    }
    now += 240_000;
    await finish(run, now, `L${String(index)}`);
    await give(run, 'next');
    if (run.state.order !== null) await give(run, 'back');
    now += 60_000;
  }
  const [first, second] = await allParcels(store);
  if (first === undefined || second === undefined) throw new Error('no parcels');
  const found = (parcel: typeof first, grams: number) => ({
    parcel: parcel.id,
    bench: parcel.bench,
    ours: massFromBase(parcel.reading + parcel.toCome),
    carriers: addMass(massFromBase(parcel.reading + parcel.toCome), massFromGrams(grams)),
  });
  await saveCorrections(store, [found(first, 500), found(second, -2)], now);
}, 60_000);

afterAll(async () => {
  await store.destroy();
  data.remove();
});

const TODAY = { from: '2026-11-25', to: '2026-11-25' };

describe('the report of a day', () => {
  it('has the sums that the stored rows themselves have', async () => {
    const { sums, currency } = await report(store, shop, { ...TODAY, by: 'day' });
    const parcels = await allParcels(store);
    expect(currency).toBe('USD');
    expect(sums.parcels).toBe(parcels.length);
    expect(sums.orders).toBe(6);
    expect(sums.postage).toBe(parcels.reduce((sum, { owed }) => sum + owed.minor, 0));
    expect(sums.paid.paid).toBe(700 + 701 + 702);
    const runs = await store.selectFrom('run').select(['id', 'compared']).execute();
    // Runs that were given back have no parcel and count for nothing.
    const packed = runs.filter(({ id }) => parcels.some(({ run }) => run === id));
    const saved = packed.reduce((sum, { compared }) => {
      const each = JSON.parse(compared ?? 'null') as { planned: number; ladder: number | null } | null;
      const ladder = each?.ladder ?? null;
      return each === null || ladder === null ? sum : sum + ladder - each.planned;
    }, 0);
    expect(sums.ladder.saved).toBeCloseTo(saved, 6);
    expect(sums.ladder.saved).toBeGreaterThanOrEqual(0);
    expect(sums.carton.saved).toBeGreaterThanOrEqual(0);
    expect(sums.corrections).toMatchObject({ parcels: 2, dearer: 1 });
    expect(sums.corrections.meanGrams).toBeCloseTo(249, 6);
    expect(sums.seconds.sum / sums.seconds.parcels).toBeGreaterThan(0);
    expect(sums.close).toBe(Object.values(sums.decisions).reduce((sum, each) => sum + each, 0));
    expect(sums.close).toBeGreaterThan(0);
  });

  it('says who, what and in what, by each side, and is the same whenever it is asked', async () => {
    for (const by of REPORT_BY) {
      const one = await report(store, shop, { ...TODAY, by });
      expect(one.groups.reduce((sum, { parcels }) => sum + parcels, 0)).toBe(one.sums.parcels);
      expect(await report(store, shop, { ...TODAY, by })).toEqual(one);
    }
    const people = await report(store, shop, { ...TODAY, by: 'person' });
    expect(people.groups.map(({ name }) => name.en)).toEqual(['Tobias']);
    expect((await report(store, shop, { from: '2026-11-24', to: '2026-11-24', by: 'day' })).sums.parcels).toBe(0);
  });

  it('material is the container, its wrap, and what else each parcel takes', async () => {
    const parcels = await allParcels(store);
    const { sums } = await report(store, shop, { ...TODAY, by: 'day' });
    // By hand from the shop's files: a label of 14.00 / 500 and 28 cm of paper of 3.20 / 80 m; tape for cartons.
    const expected = parcels.reduce((sum, parcel) => {
      const container = shop.containers.get(parcel.container);
      const wrap = shop.wraps.get(parcel.wrap);
      const tape = container?.type === 'carton' ? (1.2 / 66) * 260 : 0;
      const own = (container?.cost.minor ?? 0) + (wrap?.costPerPiece.minor ?? 0) * parcel.pieces.length;
      return sum + own + 1400 / 500 + (0.28 / 80) * 320 + tape;
    }, 0);
    expect(sums.material).toBeCloseTo(expected, 6);
  });

  it('goes out as a file with the same figures', async () => {
    const wanted = await report(store, shop, { ...TODAY, by: 'service' });
    const rows = parse(reportCsv(wanted, 'es').slice(1), {
      columns: true,
      record_delimiter: '\r\n',
    }) as unknown as readonly Record<string, string>[];
    expect(rows.map((row) => row['key'])).toEqual(wanted.groups.map(({ key }) => key));
    expect(rows.reduce((sum, row) => sum + Math.round(Number(row['postage']) * 100), 0)).toBe(wanted.sums.postage);
    for (const row of rows) expect(row['paidLessPostage']).toMatch(/^-?\d+\.\d\d$/);
  });
});
