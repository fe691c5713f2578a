import { describe, expect, it, vi } from 'vitest';
import { controlOf, setControl } from '#station-ui/bench/hid-control.ts';
import type { HidCollection, HidDevice, HidItem } from '#station-ui/bench/web-hid.ts';

/** Zero Scale and Enforced Zero Return (USB HID Point of Sale Usage Tables v1.02, 4; the numbers from memory). */
const ZERO = 0x8d0080;
const ENFORCED = 0x8d0081;
const bits = (usages: readonly number[], more: Partial<HidItem> = {}): HidItem => ({
  usages,
  reportSize: 1,
  reportCount: usages.length,
  ...more,
});
const report = (items: readonly HidItem[], reportId = 2): HidCollection => ({
  usagePage: 0x8d,
  featureReports: [{ reportId, items }],
});

describe('a control of a scale at the screen', () => {
  it('is found at its bit, behind what comes before it', () => {
    expect(controlOf([report([bits([ENFORCED, ZERO])])], ZERO)).toEqual({ reportId: 2, bytes: 1, bit: 1 });
    const eight = { isConstant: true, reportSize: 8, reportCount: 1 };
    expect(controlOf([report([eight, bits([ZERO])])], ZERO)).toEqual({ reportId: 2, bytes: 2, bit: 8 });
  });
  it('is none where it is constant, one of a list, has no field, or nothing is described', () => {
    expect(controlOf([], ZERO)).toBeNull();
    expect(controlOf([{ usagePage: 0x8d }], ZERO)).toBeNull();
    expect(controlOf([report([bits([ZERO], { isConstant: true })])], ZERO)).toBeNull();
    expect(controlOf([report([bits([ZERO], { isArray: true })])], ZERO)).toBeNull();
    expect(controlOf([report([bits([ENFORCED, ZERO], { reportCount: 1 })])], ZERO)).toBeNull();
  });
  it.each([
    ['with its number', [2, 0b101]],
    ['without it', [0b101]],
  ])('is set, and the rest of the report as it was read stays, read %s', async (_, read) => {
    const sendFeatureReport = vi.fn(() => Promise.resolve());
    const device = Object.assign(new EventTarget(), {
      receiveFeatureReport: () => Promise.resolve(new DataView(Uint8Array.from(read).buffer)),
      sendFeatureReport,
    }) as unknown as HidDevice;
    await setControl(device, { reportId: 2, bytes: 1, bit: 1 });
    expect(sendFeatureReport).toHaveBeenCalledWith(2, Uint8Array.of(0b111));
  });
  it('is set where the report cannot be read', async () => {
    const sendFeatureReport = vi.fn(() => Promise.resolve());
    const device = Object.assign(new EventTarget(), {
      receiveFeatureReport: () => Promise.reject(new Error('not readable')),
      sendFeatureReport,
    }) as unknown as HidDevice;
    await setControl(device, { reportId: 0, bytes: 2, bit: 9 });
    expect(sendFeatureReport).toHaveBeenCalledWith(0, Uint8Array.of(0, 0b10));
  });
});
