import { wholeText } from '#config/edit/rendered.ts';
import { RATE_CARD_FIELDS } from '#config/form/sections.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { NewRateCard, Plain } from '#shared/wire/settings.ts';
import { SettingsRefusal } from './refusal.ts';
import { isMapping } from './section-view.ts';

/** What a new rate card begins with: no price, so that none of ours is ever asked. */
export function newRateCard({ currency, units }: Shop): NewRateCard {
  const zone = 'all';
  const value = {
    currency,
    units: { mass: units.mass, length: units.length },
    zones: [{ by: 'flat', zone }],
    services: [{ prices: [{ rule: 'weight-bracket', zones: [zone], brackets: [{}] }] }],
  };
  return { fields: RATE_CARD_FIELDS, value };
}

const NAME = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** The file of a new rate card. @throws SettingsRefusal where it cannot be called so */
export function fileOfNewCard(name: string): string {
  if (NAME.test(name)) return `rate-cards/${name}.yaml`;
  const expected = 'lower-case letters, digits and hyphens';
  throw new SettingsRefusal('does-not-hold', `A rate card's file is named by ${expected}.`, [
    { file: 'rate-cards', path: '', line: null, expected, found: JSON.stringify(name) },
  ]);
}

/** The text of a new rate card. @throws SettingsRefusal */
export function textOfNewCard(value: Plain): string {
  if (!isMapping(value)) throw new SettingsRefusal('does-not-hold', 'A rate card is a mapping.');
  return wholeText(value);
}
