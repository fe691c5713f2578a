import type { Clock } from './clock.ts';
import { conditionAfter, type HealthKeeper } from './health.ts';
import type { TraceKeeper } from './trace.ts';
import { keepOpen, type OpenLink, type Press, type Send, type Session } from './transport/keep-open.ts';
import type { TransportFactory } from './transport/transport.ts';

/** A device's link that is kept open, whose losses stand in the device's trace and health. */
export function watchedLink(parts: {
  readonly transport: TransportFactory;
  readonly clock: Clock;
  readonly session: (send: Send, press: Press) => Session;
  readonly trace: TraceKeeper;
  readonly health: HealthKeeper;
}): OpenLink {
  const { transport, clock, session, trace, health } = parts;
  return keepOpen({
    transport,
    clock,
    session,
    onLost(how) {
      trace.failed(how.message);
      health.become(conditionAfter(how));
    },
  });
}
