import { io } from 'socket.io-client';
import type { Socket } from 'socket.io-client';
import { ZERO_SCALE_USAGE } from '#shared/wire/screen-scale.ts';
import type { ScaleOffer, ScaleToScreen, ScreenToScale } from '#shared/wire/screen-scale.ts';
import { controlOf, setControl } from './hid-control.ts';
import type { HidDevice, HidReportEvent, WebHid } from './web-hid.ts';

/** Weighing devices: usage page 0x8D of the USB HID Point of Sale Usage Tables v1.02 (2001), section 4. */
const WEIGHING_PAGE = 0x8d;

/**
 * `not-offered`: this browser does not read USB scales, or not on this page; `none`: no scale was chosen or it was
 * unplugged; `held`: the scale of another screen of this bench is in use
 */
export type UsbScaleState = 'starting' | 'not-offered' | 'none' | 'cannot-open' | 'held' | 'open';

/** The USB scale at this screen: opened here, its reports passed on as they are. */
export class UsbScale {
  private readonly socket: Socket<ScaleToScreen, ScreenToScale>;
  private device: HidDevice | null = null;
  private state: UsbScaleState = 'starting';

  constructor(
    bench: string,
    private readonly hid: WebHid | null,
    private readonly changed: (state: UsbScaleState) => void,
  ) {
    this.socket = io('/scale', {
      auth: { bench },
      transports: ['websocket', 'polling'],
      reconnectionDelay: 250,
      reconnectionDelayMax: 1500,
    });
    // After a lost link the server must be told anew.
    this.socket.on('connect', () => this.offer());
    this.socket.on('press', this.press);
    this.hid?.addEventListener('connect', this.plugged);
    this.hid?.addEventListener('disconnect', this.unplugged);
    if (this.hid === null) this.become('not-offered');
    else void this.openKnown(this.hid);
  }

  /** Asks the browser, which asks the person, which scale to read. Must come from a press of a button. */
  async choose(): Promise<void> {
    const [chosen] = (await this.hid?.requestDevice({ filters: [{ usagePage: WEIGHING_PAGE }] }).catch(() => [])) ?? [];
    if (chosen !== undefined) await this.open(chosen);
  }

  close(): void {
    this.hid?.removeEventListener('connect', this.plugged);
    this.hid?.removeEventListener('disconnect', this.unplugged);
    this.device?.removeEventListener('inputreport', this.reported);
    void this.device?.close().catch(() => undefined);
    this.device = null;
    this.socket.disconnect();
  }

  /** A scale that was allowed once needs no second question. */
  private async openKnown(hid: WebHid): Promise<void> {
    const known = await hid.getDevices().catch((): readonly HidDevice[] => []);
    const scale = known.find(({ collections }) => collections.some(({ usagePage }) => usagePage === WEIGHING_PAGE));
    if (scale === undefined) this.become('none');
    else if (this.device === null) await this.open(scale);
  }

  private async open(device: HidDevice): Promise<void> {
    try {
      if (!device.opened) await device.open();
    } catch {
      this.become('cannot-open');
      return;
    }
    this.device?.removeEventListener('inputreport', this.reported);
    this.device = device;
    device.addEventListener('inputreport', this.reported);
    this.become('open');
    this.offer();
  }

  private offer(): void {
    if (this.device === null || !this.socket.connected) return;
    this.socket.emit('opened', (offer: ScaleOffer) => {
      if (this.device === null) return;
      this.become(offer === 'taken' ? 'open' : 'held');
      if (offer === 'taken') this.socket.emit('controls', this.controls(this.device));
      // The other screen may let go.
      if (offer === 'held') setTimeout(() => this.offer(), 2000);
    });
  }

  /** Of all that a scale may describe the bench needs one control. */
  private controls(device: HidDevice): readonly number[] {
    return controlOf(device.collections, ZERO_SCALE_USAGE) === null ? [] : [ZERO_SCALE_USAGE];
  }

  private readonly press = (usage: number): void => {
    const control = this.device === null ? null : controlOf(this.device.collections, usage);
    // Whether the scale did it, its next reports show.
    if (this.device !== null && control !== null) void setControl(this.device, control).catch(() => undefined);
  };

  private readonly reported = (event: Event): void => {
    // What a lost link could not carry is past: it must not come later as if it were now.
    if (!this.socket.connected) return;
    const { reportId, data } = event as HidReportEvent;
    const bytes = new Uint8Array(data.byteLength + 1);
    bytes[0] = reportId;
    bytes.set(new Uint8Array(data.buffer, data.byteOffset, data.byteLength), 1);
    this.socket.volatile.emit('report', bytes);
  };

  private readonly plugged = (): void => {
    if (this.hid !== null && this.device === null) void this.openKnown(this.hid);
  };

  private readonly unplugged = (event: Event): void => {
    const { device } = event as Event & { readonly device?: HidDevice };
    if (this.device === null || (device !== undefined && device !== this.device)) return;
    this.device.removeEventListener('inputreport', this.reported);
    this.device = null;
    if (this.socket.connected) this.socket.emit('gone');
    this.become('none');
  };

  private become(state: UsbScaleState): void {
    if (state === this.state) return;
    this.state = state;
    this.changed(state);
  }
}
