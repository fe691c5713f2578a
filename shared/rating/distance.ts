import type { Place } from './rate-card.ts';

const RADIUS: Readonly<Record<'mi' | 'km', number>> = { mi: 3958.7613, km: 6371 };
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Great-circle distance by the haversine formula on a sphere of the Earth's mean radius. */
export function greatCircle(from: Place, to: Place, unit: 'mi' | 'km'): number {
  const dLatitude = radians(to.latitude - from.latitude);
  const dLongitude = radians(to.longitude - from.longitude);
  const h =
    Math.sin(dLatitude / 2) ** 2 +
    Math.cos(radians(from.latitude)) * Math.cos(radians(to.latitude)) * Math.sin(dLongitude / 2) ** 2;
  return 2 * RADIUS[unit] * Math.asin(Math.min(1, Math.sqrt(h)));
}
