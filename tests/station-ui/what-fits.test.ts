import { afterEach, expect, it, vi } from 'vitest';
import { OfficeRequestError } from '#station-ui/office/api.ts';
import type { PlanningApi } from '#station-ui/office/planning-api.ts';
import '#station-ui/office/what-fits.ts';
import type { WardrobeView } from '#shared/wire/fits.ts';

afterEach(() => {
  vi.useRealTimers();
  document.body.replaceChildren();
});

it('a page whose first question came to nothing says so, and asks again until it has what it asks with', async () => {
  vi.useFakeTimers();
  const wardrobe: WardrobeView = {
    kinds: [],
    cloths: [],
    units: { mass: 'oz', length: 'in', massPlaces: 1 },
    to: { country: 'US', postcode: '55802' },
  };
  const asked = vi.fn<PlanningApi['wardrobe']>().mockResolvedValue(wardrobe);
  asked.mockRejectedValueOnce(new OfficeRequestError('no-server', ''));
  const page = Object.assign(document.createElement('bf-what-fits'), {
    api: { wardrobe: asked } as unknown as PlanningApi,
  });
  document.body.append(page);
  await vi.advanceTimersByTimeAsync(100);
  expect(page.shadowRoot?.querySelector('.failure')).not.toBeNull();
  expect(page.shadowRoot?.querySelector('form')).toBeNull();
  await vi.advanceTimersByTimeAsync(6000);
  expect(page.shadowRoot?.querySelector('form')).not.toBeNull();
  expect(page.shadowRoot?.querySelector('.failure')).toBeNull();
  await vi.advanceTimersByTimeAsync(20_000);
  expect(asked).toHaveBeenCalledTimes(2);
});
