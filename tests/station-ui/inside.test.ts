import { afterEach, expect, it, vi } from 'vitest';
import type { insideApi } from '#station-ui/office/inside.ts';
import '#station-ui/office/inside.ts';
import type { privacyApi } from '#station-ui/office/privacy.ts';
import '#station-ui/office/privacy.ts';
import type { ChangeRow, ChangesView } from '#shared/wire/audit.ts';

afterEach(() => {
  vi.useRealTimers();
  document.body.replaceChildren();
});

const row = (id: number): ChangeRow => ({
  id,
  at: id,
  what: 'log-level',
  about: `change ${String(id)}`,
  name: null,
  who: null,
  from: 'station',
  details: {},
});
const page = (ids: readonly number[], more = false): ChangesView => ({ rows: ids.map(row), more, timeZone: 'UTC' });

async function opened(first: ChangesView) {
  vi.useFakeTimers();
  const changes = vi.fn<(typeof insideApi)['changes']>().mockResolvedValue(first);
  const api: typeof insideApi = {
    health: () => Promise.resolve({ ok: true, shop: '', benches: 1, parts: [] }),
    level: () => Promise.resolve({ level: 'info' }),
    setLevel: (level) => Promise.resolve({ level }),
    changes,
  };
  const inside = Object.assign(document.createElement('bf-inside'), { api });
  document.body.append(inside);
  await vi.advanceTimersByTimeAsync(50);
  const shown = () => {
    const table = inside.shadowRoot?.querySelector('bf-data-table');
    return (table as unknown as { rows: readonly ChangeRow[] }).rows.map(({ id }) => id);
  };
  return { inside, changes, shown };
}

it('the record of changes follows what is changed meanwhile, and keeps the older ones that were asked for', async () => {
  const { inside, changes, shown } = await opened(page([5, 4], true));
  changes.mockResolvedValueOnce(page([3, 2], false));
  inside.shadowRoot?.querySelector<HTMLButtonElement>('[data-do=older]')?.click();
  await vi.advanceTimersByTimeAsync(50);
  expect(shown()).toEqual([5, 4, 3, 2]);
  changes.mockResolvedValue(page([7, 6, 5], true));
  await vi.advanceTimersByTimeAsync(10_000);
  expect(shown()).toEqual([7, 6, 5, 4, 3, 2]);
  expect(inside.shadowRoot?.querySelector('[data-do=older]'), 'all are shown').toBeNull();
  changes.mockResolvedValue(page([20, 19], true));
  await vi.advanceTimersByTimeAsync(10_000);
  expect(shown(), 'no gap is shown as if there were none').toEqual([20, 19]);
});

it('a purge on the same page stands in the record at once, without what it took out', async () => {
  const { changes, shown } = await opened(page([5, 4]));
  const api: typeof privacyApi = {
    view: () => Promise.resolve({ kept: [], buyersDays: null, photoDays: 120 }),
    buyer: (buyer) => Promise.resolve({ buyer, orders: [{ id: '4101' }] } as never),
    purge: () => Promise.resolve({ orders: ['4101'], bytesLeft: 'none' } as never),
  };
  const privacy = Object.assign(document.createElement('bf-privacy'), { api });
  document.body.append(privacy);
  const press = async (button: string) => {
    await vi.advanceTimersByTimeAsync(10);
    privacy.shadowRoot?.querySelector<HTMLButtonElement>(button)?.click();
    await vi.advanceTimersByTimeAsync(10);
  };
  await vi.advanceTimersByTimeAsync(10);
  privacy.shadowRoot?.querySelector('form')?.dispatchEvent(new Event('submit', { cancelable: true }));
  changes.mockResolvedValue(page([6, 4]));
  await press('[data-do=ask-purge]');
  await press('[data-do=purge]');
  expect(shown()).toEqual([6, 4]);
});
