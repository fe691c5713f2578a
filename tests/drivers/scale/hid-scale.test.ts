import { afterEach, describe, expect, test } from 'vitest';
import { createScaleDriver } from '#drivers/scale/scale-driver.ts';
import { hidTransport, type HidLibrary } from '#drivers/transport/hid.ts';
import { loadHidLibrary } from '#drivers/transport/hid-library.ts';
import type { PortIdentity } from '#drivers/transport/serial-ports.ts';
import { screenRelay } from '#drivers/transport/screen-relay.ts';
import type { TransportFactory } from '#drivers/transport/transport.ts';
import { usbScales } from '#server/office/devices/usb-scales.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { DeviceHealth } from '#shared/wire/views.ts';
import { hidScale, hidSource } from '../support/hid-source.ts';
import { manualClock } from '../support/manual-clock.ts';

/** Reports worked out in USB HID Point of Sale Usage Tables v1.02 (2001), section 4: report 3, usage page 0x8D. */
const OUNCES_645_2 = '03 04 0B FF 34 19';
const MOVING = '03 03 0B FF 34 19';

/**
 * A scale that describes a control report, number 2: Enforced Zero Return, Zero Scale, six bits of nothing. Items as the
 * Device Class Definition for HID 1.11, 6.2.2 has them; usages of page 0x8D from memory.
 */
const CONTROLS = Uint8Array.from([
  ...[0x05, 0x8d, 0x09, 0x20, 0xa1, 0x01], // Usage Page (Scale), Usage (Scale Device), Collection (Application)
  ...[0x09, 0x32, 0xa1, 0x02, 0x85, 0x03], // the data report, number 3
  ...[0x75, 0x08, 0x95, 0x05, 0x09, 0x40, 0x81, 0x02, 0xc0],
  ...[0x09, 0x31, 0xa1, 0x02, 0x85, 0x02], // the control report, number 2
  ...[0x15, 0x00, 0x25, 0x01, 0x75, 0x01, 0x95, 0x02, 0x09, 0x81, 0x09, 0x80, 0xb1, 0x02],
  ...[0x95, 0x06, 0xb1, 0x03, 0xc0, 0xc0], // constant bits, End Collection twice
]);

const ends: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
});

async function drive(transport: TransportFactory) {
  const clock = manualClock();
  const readings: Reading[] = [];
  const healths: DeviceHealth[] = [];
  const driver = createScaleDriver({
    transport,
    protocol: 'hid',
    division: massFromDecimal('0.1', 'oz'),
    capacity: massFromDecimal('70', 'lb'),
    clock,
    onReading: (reading) => readings.push(reading),
    onHealth: (health) => healths.push(health),
  });
  ends.push(() => driver.stop());
  driver.start();
  await clock.advance(0);
  return { clock, readings, healths, driver };
}
const onSource = (source: HidLibrary, identity: PortIdentity = {}): TransportFactory =>
  hidTransport(identity, () => Promise.resolve(source));

describe('a USB HID scale of this computer', () => {
  test('the only one that says it weighs is found among other devices, and its reports are readings', async () => {
    const source = hidSource();
    source.plug({ path: 'keys', vendorId: '1209', productId: '0001', name: 'keyboard', usagePage: 1 });
    source.plug(hidScale('scale'));
    const { readings, driver, clock } = await drive(onSource(source));
    source.report('scale', MOVING);
    source.report('scale', OUNCES_645_2);
    await clock.advance(0);
    expect(source.opened).toEqual(['scale']);
    expect(readings).toMatchObject([
      { mass: massFromDecimal('645.2', 'oz'), stability: 'moving' },
      { mass: massFromDecimal('645.2', 'oz'), stability: 'still', unit: 'oz', condition: 'ok' },
    ]);
    expect(driver.trace()).toMatchObject({ good: 2, discarded: 0, bytes: 12 });
  });

  test('half a report, another report and garbage are counted and are no weight', async () => {
    const source = hidSource();
    source.plug(hidScale('scale'));
    const { readings, driver } = await drive(onSource(source));
    for (const hex of ['03 04 0B', '05 04 0B FF 34 19', 'FF FF FF FF FF FF', '03 04 0B FF 34 19 07']) {
      source.report('scale', hex);
    }
    expect(readings).toEqual([]);
    expect(driver.discarded()).toBe(4);
    // Some systems fill the report up with zeros.
    source.report('scale', `${OUNCES_645_2} 00 00`);
    expect(readings).toHaveLength(1);
  });

  test('unplugged and plugged in at another socket: lost at once, found again by its serial number', async () => {
    const source = hidSource();
    source.plug(hidScale('socket-1'));
    source.plug(hidScale('socket-2', { serialNumber: 'B8' }));
    const { clock, driver, readings, healths } = await drive(onSource(source, { serialNumber: 'a7' }));
    source.report('socket-1', OUNCES_645_2);
    expect(driver.health().state).toBe('working');
    source.unplug('socket-1');
    await clock.advance(0);
    expect(driver.health()).toMatchObject({ state: 'lost', trouble: 'link-lost' });
    expect(driver.trace().failure).toBe('could not read from HID device');
    await clock.advance(60_000);
    expect(driver.health()).toMatchObject({ state: 'lost', trouble: 'cannot-open' });
    source.plug(hidScale('socket-9'));
    await clock.advance(6000);
    source.report('socket-9', OUNCES_645_2);
    expect(driver.health().state).toBe('working');
    expect(readings).toHaveLength(2);
    expect(source.opened).toEqual(['socket-1', 'socket-9']);
    expect(healths.map(({ state }) => state)).toEqual(['working', 'lost', 'lost', 'silent', 'working']);
  });

  test('two scales and no ids: none is taken, a guess could be the wrong one', async () => {
    const source = hidSource();
    source.plug(hidScale('one'));
    source.plug(hidScale('two', { serialNumber: 'B8' }));
    const { driver } = await drive(onSource(source));
    expect(driver.health().trouble).toBe('cannot-open');
    expect(source.opened).toEqual([]);
  });

  test('where the system does not tell what weighs, only a named device is opened', async () => {
    const source = hidSource();
    const { usagePage, ...unsaid } = hidScale('scale');
    expect(usagePage).toBe(0x8d);
    source.plug(unsaid);
    expect((await drive(onSource(source))).driver.health().trouble).toBe('cannot-open');
    await drive(onSource(source, { vendorId: '1209', productId: '0007' }));
    expect(source.opened).toEqual(['scale']);
  });

  test('silent but open is told within two seconds, and opened anew after ten', async () => {
    const source = hidSource();
    source.plug(hidScale('scale'));
    const { clock, driver } = await drive(onSource(source));
    source.report('scale', OUNCES_645_2);
    await clock.advance(2000);
    expect(driver.health()).toMatchObject({ state: 'silent', trouble: 'no-frames' });
    await clock.advance(10_000);
    expect(source.opened).toEqual(['scale', 'scale']);
  });

  test('without the library the scale is lost for that reason, and the library is tried again', async () => {
    const source = hidSource();
    source.plug(hidScale('scale'));
    let missing = true;
    const load = () => (missing ? Promise.reject(new Error('Cannot find package')) : Promise.resolve(source));
    const { clock, driver } = await drive(hidTransport({}, load));
    expect(driver.health()).toMatchObject({ state: 'lost', trouble: 'not-installed' });
    expect(driver.trace().failure).toContain('Cannot find package');
    missing = false;
    await clock.advance(6000);
    source.report('scale', OUNCES_645_2);
    expect(driver.health().state).toBe('working');
  });

  test('where it describes the control it is zeroed by it, and what else stands in that report stays', async () => {
    const source = hidSource(CONTROLS);
    source.plug(hidScale('scale'));
    const { driver, clock } = await drive(onSource(source));
    expect(await driver.zero()).toBe('sent');
    await clock.advance(0);
    // Report 2; Enforced Zero Return was set and stays so.
    expect(source.set).toEqual(['0203']);
    expect(await driver.tell('tare')).toBe('not-supported');
    source.unplug('scale');
    await clock.advance(0);
    expect(await driver.zero()).toBe('not-connected');
    expect(source.set).toHaveLength(1);
  });

  test('where it does not, or the system does not tell, it cannot be told to zero, and says so', async () => {
    for (const descriptor of [null, CONTROLS.subarray(0, 10)]) {
      const source = hidSource(descriptor);
      source.plug(hidScale('scale'));
      expect(await (await drive(onSource(source))).driver.zero()).toBe('not-supported');
      expect(source.set).toEqual([]);
    }
  });

  test('the real library, where it loads, lists what is there; where it does not, it says what is missing', async () => {
    const seen = await usbScales(loadHidLibrary);
    if (seen.missing === null) expect(seen.scales).toBeInstanceOf(Array);
    else expect(seen).toMatchObject({ missing: expect.stringMatching(/\w/) as unknown, scales: [] });
  });

  test('the office lists the scales with the lines for the config', async () => {
    const source = hidSource();
    source.plug({ path: 'keys', vendorId: '1209', productId: '0001', name: 'keyboard', usagePage: 1 });
    source.plug(hidScale('scale'));
    const { scales } = await usbScales(() => Promise.resolve(source));
    expect(scales).toMatchObject([{ name: 'bench scale', ids: '1209 0007 A7', weighs: true }]);
    expect(scales[0]?.yaml).toContain('kind: hid');
  });
});

describe('a USB HID scale at the bench’s screen', () => {
  const bytes = Uint8Array.from(Buffer.from(OUNCES_645_2.replaceAll(' ', ''), 'hex'));

  test('opens when the screen offers it, however late, and is lost with the screen', async () => {
    const relay = screenRelay('screen');
    const { clock, driver, readings } = await drive(relay);
    await clock.advance(120_000);
    const device = relay.offer();
    device?.bytes(bytes);
    expect(readings).toHaveLength(1);
    device?.gone('the screen is away');
    expect(driver.health()).toMatchObject({ state: 'lost', trouble: 'link-lost' });
    device?.bytes(bytes);
    expect(readings).toHaveLength(1);
    await clock.advance(6000);
    relay.offer()?.bytes(bytes);
    expect(readings).toHaveLength(2);
  });

  test('a second screen is refused while the first has it: two scales never mix', async () => {
    const relay = screenRelay('screen');
    const { readings } = await drive(relay);
    const first = relay.offer();
    expect(relay.offer()).toBeNull();
    first?.gone('unplugged');
    relay.offer()?.bytes(bytes);
    first?.bytes(bytes);
    first?.gone('again');
    expect(relay.offer()).toBeNull();
    await Promise.resolve();
    expect(readings.length).toBeLessThanOrEqual(1);
  });

  test('an open scale that sends nothing is silent, and comes back without a new offer', async () => {
    const relay = screenRelay('screen');
    const { clock, driver } = await drive(relay);
    const device = relay.offer();
    device?.bytes(bytes);
    await clock.advance(2000);
    expect(driver.health().state).toBe('silent');
    await clock.advance(20_000);
    device?.bytes(bytes);
    expect(driver.health().state).toBe('working');
  });

  test('is zeroed where the screen says that it describes the control, and never after the screen is gone', async () => {
    const relay = screenRelay('screen');
    const { driver, clock } = await drive(relay);
    expect(await driver.zero()).toBe('not-connected');
    const device = relay.offer();
    expect(await driver.zero()).toBe('not-supported');
    const pressed: number[] = [];
    device?.controls([0x8d0080], (usage) => pressed.push(usage));
    expect(await driver.zero()).toBe('sent');
    expect(pressed).toEqual([0x8d0080]);
    device?.gone('the screen is away');
    await clock.advance(0);
    expect(await driver.zero()).toBe('not-connected');
    await clock.advance(6000);
    relay.offer();
    expect(await driver.zero()).toBe('not-supported');
    expect(pressed).toHaveLength(1);
  });
});
