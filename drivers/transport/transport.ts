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

/** One connection to a device, from its opening to its end. It is never opened again. */
export interface Connection {
  /**
   * Hands the bytes to the operating system. A connection that is not open refuses them: nothing is ever kept for
   * later, because a stale command (a tare, a slip) that arrives after a reconnect does harm.
   */
  write(bytes: Uint8Array): 'sent' | 'refused';
  /** Ends the connection and throws away what was not sent yet. */
  close(): Promise<void>;
}

/** Makes connections that move bytes and know no protocol. Every call makes a new port object. */
export interface TransportFactory {
  /** for people: where the bytes come from */
  readonly name: string;
  connect(events: LinkEvents): Connection;
}
