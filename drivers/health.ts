import type { DeviceHealth, DeviceName } from '#shared/wire/views.ts';
import type { Clock } from './clock.ts';
import type { Closed } from './transport/transport.ts';

export type DeviceCondition = Pick<DeviceHealth, 'state' | 'trouble'>;

/** The present health of a device; tells each change once. */
export interface HealthKeeper {
  now(): DeviceHealth;
  become(condition: DeviceCondition): void;
}

export function keepHealth(device: DeviceName, clock: Clock, onHealth: (health: DeviceHealth) => void): HealthKeeper {
  // Nothing was heard yet: a device counts as lost until its link is up.
  let health: DeviceHealth = { device, state: 'lost', trouble: 'none', since: clock.now() };
  return {
    now: () => health,
    become({ state, trouble }) {
      if (state === health.state && trouble === health.trouble) return;
      const since = state === health.state ? health.since : clock.now();
      health = { device, state, trouble, since };
      onHealth(health);
    },
  };
}

/** How a device is whose connection ended, or never began. */
export function conditionAfter({ cause }: Closed): DeviceCondition {
  if (cause === 'cannot-open' || cause === 'not-installed') return { state: 'lost', trouble: cause };
  return { state: 'lost', trouble: 'link-lost' };
}
