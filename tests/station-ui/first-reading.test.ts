import { afterEach, expect, it, vi } from 'vitest';
import { OfficeRequestError } from '#station-ui/office/api.ts';
import type { PlanningApi } from '#station-ui/office/planning-api.ts';
import { en } from '#station-ui/i18n/en.ts';
import '#station-ui/office/office.ts';

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  document.body.replaceChildren();
});

/** What each page reads as it is opened. */
const PAGES = {
  'bf-people': ['/api/people'],
  'bf-learned': ['/api/learned'],
  'bf-voices': ['/api/voices'],
  'bf-backups': ['/api/backups'],
  'bf-intake': ['/api/intake-tokens'],
  'bf-settings': ['/api/who', '/api/settings'],
  'bf-money': ['/api/report'],
  'bf-supplies': ['/api/supplies', '/api/benches', '/api/who'],
  'bf-hand-over': ['/api/hand-over', '/api/benches', '/api/who'],
  'bf-rates': ['/api/rates/cards'],
  'bf-rights': ['/api/access/rights'],
  'bf-devices': ['/api/devices', '/api/speech/state', '/api/voices/recogniser'],
  'bf-first-run': ['/api/first-run'],
  'bf-inside': ['/healthz', '/api/log-level', '/api/changes'],
  'bf-privacy': ['/api/privacy'],
  'bf-what-fits': ['/api/wardrobe'],
} as const;

it.each(Object.entries(PAGES))('%s, opened while the server is away, asks again by itself', async (tag, addresses) => {
  vi.useFakeTimers();
  const asked: string[] = [];
  vi.stubGlobal('fetch', (address: string) => {
    asked.push(new URL(address, 'http://bench.example').pathname);
    return Promise.reject(new TypeError('no server'));
  });
  const page = document.createElement(tag);
  if (tag === 'bf-rates') Object.assign(page, { words: en.office.rates });
  if (tag === 'bf-devices') Object.assign(page, { words: en });
  document.body.append(page);
  await vi.advanceTimersByTimeAsync(100);
  for (const address of addresses) expect(asked).toContain(address);
  expect(page.shadowRoot?.querySelector('[role=alert]')).not.toBeNull();
  asked.length = 0;
  await vi.advanceTimersByTimeAsync(5000);
  for (const address of addresses) expect(asked).toContain(address);
  expect(page.shadowRoot?.querySelector('[role=alert]'), 'still told').not.toBeNull();
  page.remove();
  asked.length = 0;
  await vi.advanceTimersByTimeAsync(20_000);
  expect(asked, 'nobody looks at it').toEqual([]);
});

it('what was read is not read again, and what failed is told until it is read, without a gap', async () => {
  vi.useFakeTimers();
  const learned = vi.fn<PlanningApi['learned']>().mockRejectedValue(new OfficeRequestError('no-server', ''));
  const page = Object.assign(document.createElement('bf-learned'), { api: { learned } as unknown as PlanningApi });
  document.body.append(page);
  await vi.advanceTimersByTimeAsync(100);
  const told = page.shadowRoot?.querySelector('.failure');
  expect(told).not.toBeNull();
  await vi.advanceTimersByTimeAsync(5000);
  expect(page.shadowRoot?.querySelector('.failure'), 'the same one: read out once').toBe(told);
  learned.mockResolvedValue({ rows: [], units: { mass: 'g', massPlaces: 0 } } as never);
  await vi.advanceTimersByTimeAsync(5000);
  expect(page.shadowRoot?.querySelector('.failure')).toBeNull();
  expect(page.shadowRoot?.querySelector('.only')).not.toBeNull();
  await vi.advanceTimersByTimeAsync(30_000);
  expect(learned).toHaveBeenCalledTimes(3);
});
