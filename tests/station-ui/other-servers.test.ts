import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { OtherServers } from '#station-ui/bench/other-servers.ts';

const kept = new Map<string, string>();
const keeping = {
  getItem: (key: string) => kept.get(key) ?? null,
  setItem: (key: string, text: string) => void kept.set(key, text),
};
const there = new Set<string>();
const gone: string[] = [];
let held = false;
const others = () =>
  new OtherServers({
    keeping,
    answers: (address) => Promise.resolve(there.has(address)),
    go: (address) => gone.push(address),
    holds: () => held,
  });

beforeEach(() => {
  vi.useFakeTimers();
  kept.clear();
  there.clear();
  gone.length = 0;
  held = false;
});
afterEach(() => vi.useRealTimers());

it('goes to the first server that answers, once its own is gone for a while, also as a page that was just started', async () => {
  others().know(['http://two:8080', 'http://three:8080']);
  there.add('http://three:8080');
  const started = others();
  started.down();
  started.down();
  await vi.advanceTimersByTimeAsync(5000);
  expect(gone).toEqual([]);
  await vi.advanceTimersByTimeAsync(2000);
  expect(gone).toEqual(['http://three:8080']);
});

it('stays where its server comes back, where none answers, and where an input would be left behind', async () => {
  const page = others();
  page.know(['http://two:8080']);
  page.down();
  await vi.advanceTimersByTimeAsync(30_000);
  expect(gone).toEqual([]);
  held = true;
  there.add('http://two:8080');
  await vi.advanceTimersByTimeAsync(30_000);
  expect(gone).toEqual([]);
  page.up();
  held = false;
  await vi.advanceTimersByTimeAsync(30_000);
  expect(gone).toEqual([]);
  page.down();
  await vi.advanceTimersByTimeAsync(7000);
  expect(gone).toEqual(['http://two:8080']);
});

it('takes nothing for an address that is none', async () => {
  kept.set('benchfold.servers', '["javascript:alert(1)", 7, "//elsewhere"]');
  const page = others();
  for (const each of ['javascript:alert(1)', '//elsewhere']) there.add(each);
  page.down();
  await vi.advanceTimersByTimeAsync(30_000);
  kept.set('benchfold.servers', 'junk');
  await vi.advanceTimersByTimeAsync(30_000);
  expect(gone).toEqual([]);
});
