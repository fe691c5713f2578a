import type { LinkEvents, TransportFactory } from './transport.ts';

/** A device that a screen has opened and whose bytes it passes on. */
export interface RelayedDevice {
  bytes(chunk: Uint8Array): void;
  /** The controls that the device describes and the screen can set, and how the screen is told to. */
  controls(usages: readonly number[], press: (usage: number) => void): void;
  /** The screen lost the device, or the server lost the screen. */
  gone(message: string): void;
}

export interface ScreenRelay extends TransportFactory {
  /** A screen has opened its device. Null while another screen's device is in use: two scales must never mix. */
  offer(): RelayedDevice | null;
}

/**
 * A transport whose far end is a device at a bench's screen. A connection opens as soon as a screen offers its device,
 * however long that takes; bytes of a screen whose offer is over go nowhere.
 */
export function screenRelay(name: string): ScreenRelay {
  let offered: object | null = null;
  let waiting: LinkEvents | null = null;
  let open: LinkEvents | null = null;
  let press: ((usage: number) => void) | null = null;
  let usages: readonly number[] = [];

  function join(): void {
    if (offered === null || waiting === null) return;
    open = waiting;
    waiting = null;
    open.opened();
  }

  return {
    name,
    connect(events) {
      waiting = events;
      // A real port never opens inside the call that asks for it.
      queueMicrotask(join);
      return {
        write: () => 'refused',
        press(usage) {
          if (open !== events) return 'refused';
          if (press === null || !usages.includes(usage)) return 'not-supported';
          press(usage);
          return 'sent';
        },
        close() {
          const mine = waiting === events || open === events;
          if (waiting === events) waiting = null;
          if (open === events) open = null;
          if (mine) events.closed({ cause: 'closed-here', message: 'closed' });
          return Promise.resolve();
        },
      };
    },
    offer() {
      if (offered !== null) return null;
      const mine = {};
      offered = mine;
      join();
      return {
        bytes(chunk) {
          if (offered === mine) open?.bytes(chunk);
        },
        controls(these, how) {
          if (offered !== mine) return;
          usages = these;
          press = how;
        },
        gone(message) {
          if (offered !== mine) return;
          offered = null;
          press = null;
          usages = [];
          const ended = open;
          open = null;
          ended?.closed({ cause: 'link-lost', message });
        },
      };
    },
  };
}
