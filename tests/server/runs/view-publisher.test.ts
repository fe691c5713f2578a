import { expect, it } from 'vitest';
import { ViewPublisher } from '#server/runs/view-publisher.ts';
import { IDLE } from '#shared/run/initial.ts';
import type { BenchView } from '#shared/wire/views.ts';
import { benchViewFixture } from '#tests/support/view-fixture.ts';

/** A publisher of a bench whose queue has so many orders, as often as that is told. */
function publisherOf() {
  const bench = { waiting: 5, made: 0, shown: [] as number[], failed: [] as unknown[], stopped: false };
  const view = (): Promise<BenchView> => {
    bench.made++;
    const shown = benchViewFixture(IDLE);
    return Promise.resolve({ ...shown, day: { ...shown.day, waiting: bench.waiting } });
  };
  const publisher = new ViewPublisher({
    view,
    isStopped: () => bench.stopped,
    onView: ({ day }) => bench.shown.push(day.waiting),
    onError: (error) => bench.failed.push(error),
  });
  return { bench, publisher };
}

it('shows on a refresh only what has changed around the run, and makes that view once', async () => {
  const { bench, publisher } = publisherOf();
  publisher.publish();
  await publisher.settled();
  await publisher.refresh();
  expect(bench).toMatchObject({ made: 2, shown: [5] });
  bench.waiting = 4;
  await publisher.refresh();
  expect(bench).toMatchObject({ made: 3, shown: [5, 4] });
});

it('shows what is asked for several times at once one time, with the newest', async () => {
  const { bench, publisher } = publisherOf();
  publisher.publish();
  publisher.publish();
  bench.waiting = 3;
  // What was asked for shows it.
  await publisher.refresh();
  expect(bench).toMatchObject({ made: 1, shown: [3] });
  const refreshed = publisher.refresh();
  publisher.publish();
  await refreshed;
  await publisher.settled();
  expect(bench).toMatchObject({ made: 3, shown: [3, 3], failed: [] });
  bench.stopped = true;
  publisher.publish();
  await publisher.settled();
  expect(bench.made).toBe(3);
});
