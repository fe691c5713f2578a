import type { Role, Standing } from '#shared/access/roles.ts';

export interface PersonAtDoor {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** can sign in with a PIN */
  readonly pin: boolean;
}

/** What a screen needs to know before anybody has signed in at it. */
export interface AccessView {
  /** everybody must sign in */
  readonly locked: boolean;
  /** an owner has a PIN */
  readonly ownerPin: boolean;
  /** other devices can reach the server */
  readonly open: boolean;
  /** this is the server's own computer */
  readonly here: boolean;
  /** this device is paired, or is the server's own computer */
  readonly paired: boolean;
  /** this browser has a place among the paired devices; the server's own computer may do without */
  readonly device: boolean;
  /** the shop's, as IANA has it */
  readonly timeZone: string;
  readonly standing: Standing;
  readonly person: PersonAtDoor | null;
  /** who may sign in here; only the owners, while none of them has a PIN; nobody where the device is not paired */
  readonly people: readonly PersonAtDoor[];
}

export interface PairedDevice {
  readonly id: number;
  readonly name: string;
  readonly pairedAt: number;
  readonly seenAt: number;
  /** it is the one that asks */
  readonly this: boolean;
}

/** What a tablet that does not know the server yet is held against. */
export interface TrustView {
  /** the page that the tablet opens first, http://address:port; null while the server's computer is in no network */
  readonly page: string | null;
  /** of the shop's own certificate: SHA-256, as tablets show it */
  readonly fingerprint: string;
}

/** The office's page of people's PINs and of devices. */
export interface RightsView {
  /** null where only the server's own computer can reach it */
  readonly trust: TrustView | null;
  readonly people: readonly PersonAtDoor[];
  readonly devices: readonly PairedDevice[];
}

/** A code to pair a device with, once. */
export interface PairingCode {
  readonly code: string;
  readonly endsAt: number;
}

/** Why nobody was let in. `seconds`: how long to wait before the next try. */
export interface AccessRefused {
  readonly error: 'wrong' | 'wait' | 'busy';
  readonly message: string;
  readonly seconds: number;
}
