import { stockLevels } from '#server/store/stock.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { containersPlannedElsewhere } from '#server/store/runs.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { containersIn } from '#shared/supplies/used-by-parcel.ts';

/** Only this near to the last one does it matter what other benches are about to take. */
const FEW = 20;

/**
 * Containers that a plan must not use, by id: counted, and none left beside those that other benches have planned and not
 * yet packed. What was never counted never runs out.
 */
export async function emptyContainers(
  store: StoreOrTransaction,
  shop: Shop,
  bench: string | null,
): Promise<readonly string[]> {
  const levels = await stockLevels(store);
  const counted = (shop.supplies ?? []).flatMap(({ id, container }) => {
    const onHand = levels.get(id)?.onHand ?? null;
    return container === undefined || onHand === null || onHand > FEW ? [] : [{ container, onHand }];
  });
  if (counted.length === 0) return [];
  const planned = (await containersPlannedElsewhere(store, bench)).flatMap(containersIn);
  return counted
    .filter(({ container, onHand }) => onHand - planned.filter((each) => each === container).length <= 0)
    .map(({ container }) => container);
}
