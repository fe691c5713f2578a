import { subtractMass } from '#shared/units/mass.ts';
import type { Mass } from '#shared/units/mass.ts';
import { cubicCount } from './cubic.ts';
import type { ServiceInForce } from './in-force.ts';
import type { SizeLimit } from './limit.ts';
import { keepsLimit, measuredSide, sideTooSmall } from './limit.ts';
import type { Measures } from './measures.ts';
import { plainLength, plainMass, plainVolume } from './plain.ts';
import type { Obstacle, Settled } from './price.ts';
import { massFloor, zoneColumn } from './price.ts';
import type { RateCard, Service } from './rate-card.ts';
import type { Day, Destination, RatedParcel, Reason, Refusal } from './types.ts';
import { cubesWithin, formatVolume } from './volume.ts';

const reason = (code: string, values: Reason['values'] = {}): Reason => ({ code, values });

/** What stands in the way, with by how much. */
export function obstacleReason(
  what: Obstacle,
  service: ServiceInForce,
  parcel: RatedParcel,
  measures: Measures,
  zone: string,
  to: Destination | null,
): Reason {
  const { rule } = service;
  switch (what) {
    case 'container-type':
      return reason('container-type', { type: parcel.containerType ?? '' });
    case 'own-packaging':
      return reason('own-packaging', { container: parcel.container ?? '', owner: parcel.containerOwner ?? '' });
    case 'only-in-container': {
      const own = service.service.containers ?? [];
      const named = rule.rule === 'flat-fee' ? rule.fees.map((fee) => fee.container) : own;
      return reason('only-in-container', { containers: named.join(', ') });
    }
    case 'needs-box':
    case 'needs-soft':
    case 'thickness-unknown':
      return reason(what);
    case 'destination-refused':
      return reason('destination-refused', { postcode: to?.postcode ?? '', country: to?.country ?? '' });
    case 'limit': {
      const limit = service.sizeLimits.find((each) => !keepsLimit(each, measures, service.rounding));
      return limit === undefined ? reason('too-large') : limitReason(limit, service, measures);
    }
    case 'zone-not-on-card':
      return reason('zone-not-on-card', { zone });
    case 'beyond-tiers':
      return beyondTiers(service, measures);
    case 'beyond-brackets': {
      const unit = service.card.units.mass;
      const ends = service.zoneEnds?.[zoneColumn(service, zone)];
      const most = (ends ?? service.ceilings.at(-1) ?? 0) as Mass;
      const floor = massFloor(service, measures);
      return reason('billed-too-heavy', {
        billed: plainMass(floor, unit),
        most: plainMass(most, unit),
        by: plainMass(subtractMass(floor, most), unit),
      });
    }
  }
}

function limitReason(limit: SizeLimit, service: ServiceInForce, measures: Measures): Reason {
  const unit = service.card.units.length;
  switch (limit.limit) {
    case 'smallest-size': {
      const which = sideTooSmall(limit.least, measures);
      const side = [measures.longest, measures.middle, measures.shortest][which] ?? 0;
      const least = limit.least[which] ?? 0;
      const name = ['longest-side', 'middle-side', 'shortest-side'][which] ?? '';
      const values = {
        least: plainLength(least, unit),
        by: plainLength(least - side, unit),
        now: plainLength(side, unit),
      };
      return reason('too-small', { ...values, side: name });
    }
    case 'largest-volume': {
      const cubes = measures.longest * measures.middle * measures.shortest;
      const over = cubes - Number(cubesWithin(limit.most, 1));
      const values = { volume: plainVolume(cubes, 1, unit), by: plainVolume(over, 1, unit) };
      return reason('too-voluminous', { ...values, most: formatVolume(limit.most) });
    }
    default: {
      const side = measuredSide(limit, measures, service.rounding);
      return reason(`over-${limit.limit}`, {
        side: plainLength(side, unit),
        most: plainLength(limit.most, unit),
        by: plainLength(side - limit.most, unit),
      });
    }
  }
}

function beyondTiers(service: ServiceInForce, measures: Measures): Reason {
  const { rule } = service;
  const unit = service.card.units.length;
  if (rule.rule === 'cubic-soft') {
    const sum = Number(cubicCount(rule, measures)) * rule.sides.step;
    const most = rule.tiers.at(-1)?.upTo ?? 0;
    return reason('beyond-soft-tiers', {
      sum: plainLength(sum, unit),
      most: plainLength(most, unit),
      by: plainLength(sum - most, unit),
    });
  }
  if (rule.rule !== 'cubic-box') return reason('too-large');
  const count = Number(cubicCount(rule, measures));
  const last = rule.tiers.at(-1);
  return reason('beyond-box-tiers', {
    volume: plainVolume(count, rule.sides.step, unit),
    most: last === undefined ? '' : formatVolume(last.upTo),
    by: plainVolume(count - Number(service.tiers.at(-1) ?? 0), rule.sides.step, unit),
  });
}

/** A mass below the smallest that the service takes, or above the largest, or above what it takes to the zone. */
export function massRefusal({ service, column }: Settled, mass: Mass): Reason {
  const most = Math.min(service.largestMass, service.zoneEnds?.[column] ?? Infinity) as Mass;
  const unit = service.card.units.mass;
  if (mass < service.smallestMass) {
    return reason('too-light', {
      mass: plainMass(mass, unit),
      least: plainMass(service.smallestMass, unit),
      by: plainMass(subtractMass(service.smallestMass, mass), unit),
    });
  }
  return reason('too-heavy', {
    mass: plainMass(mass, unit),
    most: plainMass(most, unit),
    by: plainMass(subtractMass(mass, most), unit),
  });
}

/** A service that is not sold on the day. */
export function absentRefusal(card: RateCard, service: Service, day: Day): Refusal {
  const dates = { from: service.from ?? card.from, until: service.until ?? card.until ?? '' };
  return { service: service.id, carrier: card.carrier, why: reason('not-on-day', { day, ...dates }) };
}
