/** The part of the WebHID draft that a scale needs; the DOM library has no types of it. */
export interface HidDevice extends EventTarget {
  readonly productName: string;
  readonly opened: boolean;
  readonly collections: readonly HidCollection[];
  open(): Promise<void>;
  close(): Promise<void>;
  receiveFeatureReport(reportId: number): Promise<DataView>;
  sendFeatureReport(reportId: number, data: Uint8Array): Promise<void>;
}

export interface HidCollection {
  readonly usagePage?: number;
  readonly featureReports?: readonly {
    readonly reportId?: number;
    readonly items?: readonly HidItem[];
  }[];
}

/** One field, or several alike, of a report. */
export interface HidItem {
  readonly isConstant?: boolean;
  readonly isArray?: boolean;
  /** with the page in the upper 16 bits */
  readonly usages?: readonly number[];
  readonly reportSize?: number;
  readonly reportCount?: number;
}

export interface HidReportEvent extends Event {
  readonly reportId: number;
  readonly data: DataView;
}

export interface WebHid extends EventTarget {
  getDevices(): Promise<readonly HidDevice[]>;
  requestDevice(options: {
    readonly filters: readonly { readonly usagePage: number }[];
  }): Promise<readonly HidDevice[]>;
}

/** The browser's WebHID; null where it has none, or where the page did not come over a secure connection. */
export function webHid(): WebHid | null {
  return (navigator as { readonly hid?: WebHid }).hid ?? null;
}
