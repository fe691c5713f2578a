import { isDeepStrictEqual } from 'node:util';
import type { Recorded } from './recorded-routes.ts';
import type { ChangeDetails } from '#shared/audit/changes.ts';
import type { Shop } from '#shared/shop/shop.ts';

const DEVICES = ['scale', 'scanner', 'printer', 'labelPrinter', 'labelProgram', 'footSwitchKeys', 'voice'] as const;

/**
 * What is different for people, devices and the network between two states of the shop, whoever wrote the files. A badge is as good as a
 * key, so what it says is never told.
 */
export function shopChanges(before: Shop, after: Shop): readonly Recorded[] {
  return [
    ...peopleChanges(before.staff, after.staff),
    ...deviceChanges(before.benches, after.benches),
    ...networkChange(before.network, after.network),
  ];
}

function networkChange(before: Shop['network'], after: Shop['network']): readonly Recorded[] {
  const [was, is] = [reached(before), reached(after)];
  return was === is ? [] : [{ what: 'network-set', about: is, details: { from: was } }];
}

const reached = (network: Shop['network']): string =>
  [network?.open === true ? 'local network' : 'this computer', ...(network?.names ?? [])].join(', ');

function peopleChanges(before: Shop['staff'], after: Shop['staff']): readonly Recorded[] {
  const had = new Map(before.map((person) => [person.id, person]));
  const has = new Set(after.map(({ id }) => id));
  const gone = before.filter(({ id }) => !has.has(id));
  return [
    ...gone.map(({ id, role }): Recorded => ({ what: 'person-removed', about: id, details: { role } })),
    ...after.flatMap(({ id, role, badge }): readonly Recorded[] => {
      const was = had.get(id);
      if (was === undefined) return [{ what: 'person-added', about: id, details: { role } }];
      return [
        ...(was.role === role
          ? []
          : [{ what: 'role-changed', about: id, details: { from: was.role, to: role } } as const]),
        ...(was.badge === badge ? [] : [{ what: 'badge-changed', about: id } as const]),
      ];
    }),
  ];
}

function deviceChanges(before: Shop['benches'], after: Shop['benches']): readonly Recorded[] {
  const had = new Map(before.map((bench) => [bench.id, bench]));
  const has = new Set(after.map(({ id }) => id));
  const gone = before.filter(({ id }) => !has.has(id));
  return [
    ...gone.map(({ id }): Recorded => ({ what: 'device-changed', about: id, details: { bench: 'removed' } })),
    ...after.flatMap((bench): readonly Recorded[] => {
      const was = had.get(bench.id);
      if (was === undefined) return [{ what: 'device-changed', about: bench.id, details: { bench: 'added' } }];
      return DEVICES.flatMap((device): readonly Recorded[] => {
        const [old, now] = [was[device], bench[device]];
        if (isDeepStrictEqual(old, now)) return [];
        return [{ what: 'device-changed', about: `${bench.id} ${device}`, details: facts(old, now) }];
      });
    }),
  ];
}

/** Which parts are different, and how it was and is connected. */
function facts(old: unknown, now: unknown): ChangeDetails {
  const [was, is] = [partsOf(old), partsOf(now)];
  const keys = [...new Set([...Object.keys(was), ...Object.keys(is)])];
  const changed = keys.filter((key) => !isDeepStrictEqual(was[key], is[key]));
  const [from, to] = [connection(was['transport']), connection(is['transport'])];
  return { changed: changed.join(', '), ...(from === to ? {} : { from, to }) };
}

const partsOf = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Record<string, unknown>) : {};

function connection(transport: unknown): string {
  const { kind, path, host, port, baud } = partsOf(transport);
  const parts = [kind, path, host, port, baud].filter((part) => typeof part === 'string' || typeof part === 'number');
  return parts.length === 0 ? 'none' : parts.join(' ');
}
