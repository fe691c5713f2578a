import type { HidCollection, HidDevice } from './web-hid.ts';

/** Where in a feature report one bit lies, from the least significant bit of the first byte on. */
export interface HidControl {
  readonly reportId: number;
  readonly bytes: number;
  readonly bit: number;
}

/** Finds a control of one bit or more among the feature reports that a device describes; null when it has none. */
export function controlOf(collections: readonly HidCollection[], usage: number): HidControl | null {
  for (const { featureReports = [] } of collections) {
    for (const { reportId = 0, items = [] } of featureReports) {
      let from = 0;
      let bit: number | null = null;
      for (const { isConstant, isArray, usages = [], reportSize = 0, reportCount = 0 } of items) {
        const index = isConstant === true || isArray === true ? -1 : usages.indexOf(usage);
        if (index >= 0 && index < reportCount) bit ??= from + index * reportSize;
        from += reportSize * reportCount;
      }
      if (bit !== null) return { reportId, bytes: Math.ceil(from / 8), bit };
    }
  }
  return null;
}

/** Sets the control and leaves all else in its report as it is. */
export async function setControl(device: HidDevice, { reportId, bytes, bit }: HidControl): Promise<void> {
  const report = new Uint8Array(bytes);
  const now = await device.receiveFeatureReport(reportId).catch(() => null);
  if (now !== null) report.set(dataOf(now, reportId, bytes));
  const byte = bit >> 3;
  report[byte] = (report[byte] ?? 0) | (1 << (bit & 7));
  await device.sendFeatureReport(reportId, report);
}

/** Where reports are numbered, some systems put the number before the data. */
function dataOf(view: DataView, reportId: number, bytes: number): Uint8Array {
  const all = new Uint8Array(view.buffer, view.byteOffset, view.byteLength);
  const numbered = reportId !== 0 && all.length > bytes && all[0] === reportId;
  return all.subarray(numbered ? 1 : 0).slice(0, bytes);
}
