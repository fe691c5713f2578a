import { expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { labelTrial } from '#server/office/devices/label-trial.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { openTestStore } from '#tests/support/test-store.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

it('a trial label in ZPL begins and ends as a format does, and no name of ours is a command in it', async () => {
  // ^XA and ^XZ begin and end a label format, ^FD and ^FS a field's data (ZPL, from memory).
  const data = temporaryFolder('label-trial');
  const store = await openTestStore(data.path);
  const shop = loadShop(CONFIG);
  const [bench] = shop.benches;
  if (bench === undefined) throw new Error('no bench');
  const named = { ...shop, name: 'Thrum ^XZ~JR & Co' };
  const printer = { transport: { kind: 'simulated' }, speaks: 'zpl', dotsPerLine: 832 } as const;
  const { bytes } = await labelTrial(printer, 'en', { store, shop: named, bench, now: 0 });
  const text = new TextDecoder().decode(bytes);
  expect(text).toMatch(/^\^XA\^CI28(\^FO\d+,\d+\^A0N,40,40\^FD[^^~]*\^FS){3}\^XZ$/u);
  await store.destroy();
  data.remove();
});
