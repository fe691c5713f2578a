import { badInput, wrongUsage } from './cli-error.ts';
import { optional, type Options } from './options.ts';
import { bandsOf } from '#shared/rating/import/bands.ts';
import type { ZoneChoice } from '#shared/wire/rates.ts';

/** Options that say how a new card finds the zone of a postcode. */
export const ZONE_OPTIONS = ['zone', 'band', 'distance-unit', 'chart', 'origin', 'country'] as const;

/**
 * The same choice as on the office page: one zone, bands of distance, the carrier's chart, the rules of the card before, or
 * none yet.
 * @param country of the shop, asked only where the options name none
 * @param read a file's text
 */
export function zoneOptions(options: Options, country: () => string, read: (file: string) => string): ZoneChoice {
  const zone = optional(options, 'zone');
  const bands = options.texts.get('band') ?? [];
  const chart = optional(options, 'chart');
  const before = options.flags.has('zones-before');
  const ways = [zone !== undefined, bands.length > 0, chart !== undefined, before].filter(Boolean).length;
  if (ways > 1) wrongUsage('expected at most one of --zone, --band, --chart and --zones-before');
  const named = optional(options, 'country')?.toUpperCase();
  if (zone !== undefined) return { by: 'flat', zone };
  if (chart !== undefined) {
    return { by: 'chart', text: read(chart), country: named ?? country(), origin: optional(options, 'origin') ?? null };
  }
  if (bands.length === 0) return { by: before ? 'as-before' : 'given-only' };
  const unit = optional(options, 'distance-unit') ?? 'mi';
  if (unit !== 'mi' && unit !== 'km') badInput(`--distance-unit: expected mi or km, found "${unit}"`);
  return { by: 'distance', unit, country: named ?? country(), bands: bandsOf(bands.join('\n')) };
}
