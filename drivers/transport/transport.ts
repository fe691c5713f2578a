/** Why a connection ended. */
export interface Closed {
  /** `not-installed`: what would open it is missing on this computer */
  readonly cause: 'cannot-open' | 'not-installed' | 'link-lost' | 'closed-here';
  /** for people: what the operating system said */
  readonly message: string;
}

/** What a connection tells its owner. `closed` comes exactly once, and nothing after it. */
export interface LinkEvents {
  opened(): void;
  bytes(chunk: Uint8Array): void;
  closed(how: Closed): void;
}

/** `not-supported`: the device describes no such control, or the system does not tell what it describes */
export type Pressed = 'sent' | 'refused' | 'not-supported';

/** One connection to a device, from its opening to its end. It is never opened again. */
export interface Connection {
  /**
   * Hands the bytes to the operating system. A connection that is not open refuses them: nothing is ever kept for
   * later, because a stale command (a tare, a slip) that arrives after a reconnect does harm.
   */
  write(bytes: Uint8Array): 'sent' | 'refused';
  /**
   * Sets a control that the device itself describes (a USB HID usage, its page in the upper 16 bits). Missing where the
   * transport knows of no such thing; nothing is ever kept for later either.
   */
  press?(usage: number): Pressed;
  /** Ends the connection and throws away what was not sent yet. */
  close(): Promise<void>;
}

/** Makes connections that move bytes and know no protocol. Every call makes a new port object. */
export interface TransportFactory {
  /** for people: where the bytes come from */
  readonly name: string;
  /** how fast the line carries bytes, where a setting says so: what is written later waits behind what was written before */
  readonly bytesPerSecond?: number;
  connect(events: LinkEvents): Connection;
}
