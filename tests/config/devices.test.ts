import { afterAll, describe, expect, it } from 'vitest';
import { ConfigError } from '#config/config-error.ts';
import { loadShop } from '#config/load.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';

afterAll(removeConfigFolders);

/** The first bench's scale with other lines in place of its transport and protocol. */
function scaleWith(lines: string): string {
  const folder = copyOfConfig();
  edit(
    folder,
    'devices.yaml',
    '      transport: { kind: simulated }\n      protocol: continuous\n',
    lines
      .split('\n')
      .map((line) => `      ${line}\n`)
      .join(''),
  );
  return folder;
}

function problemOf(lines: string) {
  try {
    loadShop(scaleWith(lines));
  } catch (error) {
    if (error instanceof ConfigError)
      return error.problems.map(({ path, expected, found }) => ({ path, expected, found }));
    throw error;
  }
  return [];
}

describe('a scale can be', () => {
  it('on an adapter, a device file, of a form of its own, or HID', () => {
    const scale = (lines: string) => loadShop(scaleWith(lines)).benches[0]?.scale;
    expect(
      scale(
        'transport: { kind: serial-adapter, adapter: { vendorId: "0403", serialNumber: "A1" }, baud: 9600 }\nprotocol: sma\nunit: oz',
      ),
    ).toMatchObject({
      transport: { kind: 'serial-adapter', adapter: { vendorId: '0403', serialNumber: 'A1' }, baud: 9600 },
      unit: 'oz',
    });
    expect(scale('transport: { kind: device-file, path: /dev/hidraw0 }\nprotocol: hid')).toMatchObject({
      protocol: 'hid',
    });
    expect(
      scale(
        "transport: { kind: serial, path: /dev/ttyUSB0, baud: 4800 }\nprotocol:\n  kind: own\n  pattern: '(?<number>\\d+\\.\\d)(?<unit>oz) (?<status>[SM])'\n  words: { still: [S], moving: [M] }",
      )?.protocol,
    ).toMatchObject({ kind: 'own', words: { still: ['S'] } });
  });

  it('a USB HID scale, of this computer by its ids or as the only one, or at the screen', () => {
    const scale = (lines: string) => loadShop(scaleWith(lines)).benches[0]?.scale.transport;
    expect(scale('transport: { kind: hid, device: { vendorId: "1209" } }\nprotocol: hid')).toEqual({
      kind: 'hid',
      device: { vendorId: '1209' },
    });
    expect(scale('transport: { kind: hid }\nprotocol: hid')).toEqual({ kind: 'hid', device: {} });
    expect(scale('transport: { kind: hid-on-screen }\nprotocol: hid')).toEqual({ kind: 'hid-on-screen' });
  });

  it('simulated as HID', () => {
    expect(loadShop(scaleWith('transport: { kind: simulated }\nprotocol: hid')).benches[0]?.scale.protocol).toBe('hid');
  });
});

describe('what cannot work is refused with its place', () => {
  const SERIAL = 'transport: { kind: serial, path: /dev/ttyUSB0, baud: 4800 }\n';
  it.each([
    [`${SERIAL}protocol: { kind: own, pattern: "(\\\\d+" }`, 'pattern', /regular expression/],
    [`${SERIAL}protocol: { kind: own, pattern: "\\\\d+" }`, 'pattern', /group named number/],
    [`${SERIAL}protocol: { kind: own, pattern: "(?<number>\\\\d+)(?<colour>.)" }`, 'pattern', /only the groups/],
    [`${SERIAL}protocol: { kind: own, pattern: "(?<number>(\\\\d+)+)" }`, 'pattern', /repeats inside/],
    ['transport: { kind: serial-adapter, adapter: {}, baud: 9600 }\nprotocol: sma', 'adapter', /at least one/],
    [
      'transport: { kind: serial-adapter, adapter: { vendorId: 403 }, baud: 9600 }\nprotocol: sma',
      'vendorId',
      /quotes/,
    ],
    ['transport: { kind: device-file, path: hidraw0 }\nprotocol: hid', 'path', /begins with/],
    [
      'transport: { kind: simulated }\nprotocol: { kind: own, pattern: "(?<number>\\\\d)" }',
      'protocol',
      /continuous, sma or hid/,
    ],
    ['transport: { kind: hid-on-screen }\nprotocol: sma', 'protocol', /USB HID scale/],
    ['transport: { kind: hid, device: { vendor: "1209" } }\nprotocol: hid', 'vendor', /./],
    ['transport: { kind: simulated }\nprotocol: smaa', 'protocol', /continuous|sma/],
  ])('%s', (lines, path, expected) => {
    const problems = problemOf(lines);
    expect(problems).toHaveLength(1);
    expect(problems[0]?.path).toContain(path);
    expect(problems[0]?.expected).toMatch(expected);
  });

  it('a known mass that the scale cannot carry', () => {
    const folder = copyOfConfig();
    edit(folder, 'devices.yaml', 'reference: { mass: 16 oz', 'reference: { mass: 71 lb');
    expect(() => loadShop(folder)).toThrow(/capacity/);
  });
});

describe('the keys of a foot switch', () => {
  const withKeys = (keys: string) => {
    const folder = copyOfConfig();
    edit(folder, 'devices.yaml', 'footSwitchKeys: [F13, PageDown]', `footSwitchKeys: ${keys}`);
    return folder;
  };
  const problems = (keys: string) => {
    try {
      loadShop(withKeys(keys));
    } catch (error) {
      if (error instanceof ConfigError)
        return error.problems.map(({ path, expected, found }) => `${path}: ${expected}, ${found}`);
      throw error;
    }
    return [];
  };

  it('press the main command, or have one of their own', () => {
    expect(loadShop(withKeys('[F13]')).benches[0]?.footSwitchKeys).toEqual({ main: ['F13'], commands: {} });
    expect(loadShop(withKeys('{ main: [F13], back: [F15], repeat: [F16, F17] }')).benches[0]?.footSwitchKeys).toEqual({
      main: ['F13'],
      commands: { F15: 'back', F16: 'repeat', F17: 'repeat' },
    });
  });

  it.each([
    ['{ main: [F13], jump: [F15] }', /footSwitchKeys/],
    ['{ main: [F13], back: [f-15] }', /footSwitchKeys/],
    ['{ main: [F13], back: [F13] }', /footSwitchKeys: each key to mean one thing, F13 for main and for back/],
    ['{ main: [F14] }', /footSwitchKeys: each key to mean one thing, F14 for main and for talkKeys/],
    ['5', /footSwitchKeys: .*list/],
  ])('%s is refused by name', (keys, said) => {
    expect(problems(keys).join('\n')).toMatch(said);
  });
});
