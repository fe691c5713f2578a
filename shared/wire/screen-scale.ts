/** What became of a screen's offer to pass its scale's reports on; `held`: another screen's scale is in use. */
export type ScaleOffer = 'taken' | 'held' | 'not-here';

/**
 * socket.io events of namespace `/scale`, bench id in `auth.bench`: a screen passes on what the USB HID scale at it sends.
 * Raw bytes only: they are decoded where those of every other scale are.
 */
export interface ScreenToScale {
  /** the screen has opened its scale */
  opened: (ack: (offer: ScaleOffer) => void) => void;
  /** one input report, its number first, 1 to 64 bytes */
  report: (bytes: Uint8Array) => void;
  /** what the scale describes that the screen can set: HID usages, their page in the upper 16 bits */
  controls: (usages: readonly number[]) => void;
  /** the screen's scale was unplugged or let go */
  gone: () => void;
}

/** socket.io events from the server to the screen whose scale is in use. */
export interface ScaleToScreen {
  /** set this control of the scale now */
  press: (usage: number) => void;
}

/** Zero Scale (USB HID Point of Sale Usage Tables v1.02, 4; the number from memory). */
export const ZERO_SCALE_USAGE = 0x8d0080;
/** No scale describes more. */
export const MOST_CONTROLS = 16;

/** The longest report of a HID device at full speed. */
export const LONGEST_REPORT = 64;
