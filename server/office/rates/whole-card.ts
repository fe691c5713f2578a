import { carriedOver, withZones, withZonesOf } from './card-text.ts';
import type { ChosenZones } from './zone-choice.ts';
import { inForce } from '#shared/rating/dates.ts';
import type { Service } from '#shared/rating/rate-card.ts';
import type { Day } from '#shared/rating/types.ts';
import type { ZoneChoice } from '#shared/wire/rates.ts';

/** What a table of prices does not say about the card that it becomes. */
export interface RestOfCard {
  /** the card that sells the service on a day before, with its text */
  readonly former: { readonly text: string; readonly service: Service; readonly day: Day } | null;
  /** limits, surcharges and the rest of the service come from it */
  readonly carryOver: boolean;
  readonly choice: ZoneChoice['by'];
  readonly zones: ChosenZones['rules'];
}

/** The bare card of a price list with the rules for zones that were chosen and, where asked, the rest of the card before. */
export function wholeCard(bare: string, { former, carryOver, choice, zones }: RestOfCard): string {
  let text = bare;
  if (former !== null && carryOver) {
    const rule = former.service.prices.findIndex((each) => inForce(each, former.day));
    text = carriedOver(text, former.text, former.service.id, rule);
  }
  if (zones !== null) return withZones(text, zones);
  return choice === 'as-before' && former !== null ? withZonesOf(text, former.text) : text;
}
