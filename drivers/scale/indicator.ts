import type { Duplex } from 'node:stream';
import { massDigits, massFromBase, massFromDecimal, ZERO_MASS, type Mass, type MassUnit } from '#shared/units/mass.ts';
import type { SimulatedProtocol } from '#shared/weighing/scale-protocols.ts';
import { systemClock, type Clock } from '../clock.ts';

/** How a display counts. */
export interface DisplayUnit {
  readonly unit: MassUnit;
  readonly places: number;
  readonly division: Mass;
  /** whole pounds beside the ounces: "1 3.5" with the unit l/o */
  readonly pounds?: true;
}

export interface IndicatorOptions extends DisplayUnit {
  readonly protocol: SimulatedProtocol;
  readonly capacity: Mass;
  /** what the unit key and the command U go on to */
  readonly otherUnits?: readonly DisplayUnit[];
  readonly clock?: Clock;
}

/** One stream, and what it asked to be sent again and again. */
interface Line {
  readonly stream: Duplex;
  repeat: 'plain' | 'fine' | null;
}

/** A scale made of software: it settles, steps by its division, overloads, drifts and can be zeroed. */
export interface Indicator {
  putMass(mass: Mass): void;
  emptyPan(): void;
  /** The zero moves by this much, as it does when the scale warms up or dust gathers. */
  drift(mass: Mass): void;
  /** Somebody presses the unit key. */
  switchUnit(display: DisplayUnit): void;
  /** Connects a byte stream, such as a socket or the far end of a serial line. */
  attach(stream: Duplex): void;
  stop(): void;
}

const EVERY_MS = 100;
const SETTLES_WITHIN_MS = 400;
/** An indicator takes a zero only near its true zero: 2 % of capacity (common practice, no source). */
const ZERO_RANGE = 50;
/** Unit codes of the HID report. */
const HID_UNITS: Readonly<Record<MassUnit, number>> = { g: 2, kg: 3, oz: 11, lb: 12 };
/** What it says of itself, line by line, to A and B (SMA SCP-0499, from memory). */
const ABOUT = ['SMA:2/1.0', 'MFG:none', 'MOD:simulated', 'REV:1.0', 'SN_:0', 'END:'];

export function createIndicator(options: IndicatorOptions): Indicator {
  const clock = options.clock ?? systemClock;
  const lines = new Set<Line>();
  const displays: readonly DisplayUnit[] = [options, ...(options.otherUnits ?? [])];
  let turned = 0;
  let { unit, places, division, pounds } = options;
  let tare: Mass = ZERO_MASS;
  let load: Mass = ZERO_MASS;
  let before: Mass = ZERO_MASS;
  let changedAt = clock.now() - SETTLES_WITHIN_MS;
  let zeroAt: Mass = ZERO_MASS;
  let drifted: Mass = ZERO_MASS;
  let told = 0;
  let cancel: () => void = () => undefined;

  // Every frame asks for one moment: a mass that still swings must never carry the flag of a moment later.
  const moving = (at: number): boolean => at - changedAt < SETTLES_WITHIN_MS;

  /** What the cell feels: after a change it swings over and comes to rest. */
  function felt(at: number): number {
    const passed = at - changedAt;
    if (passed >= SETTLES_WITHIN_MS) return load + drifted;
    const part = passed / SETTLES_WITHIN_MS;
    const swing = Math.exp(-4 * part) * Math.cos(9 * part);
    return load + (before - load) * swing + drifted;
  }
  const shown = (at: number): Mass => massFromBase(Math.round((felt(at) - zeroAt - tare) / division) * division);
  const overloaded = (at: number): boolean => felt(at) > options.capacity + 9 * division;

  function change(mass: Mass): void {
    const at = clock.now();
    before = massFromBase(Math.round(felt(at) - drifted));
    load = mass;
    changedAt = at;
  }

  function zero(): boolean {
    const at = clock.now();
    const offset = Math.round(felt(at));
    if (moving(at) || Math.abs(offset) > options.capacity / ZERO_RANGE) return false;
    zeroAt = massFromBase(offset);
    return true;
  }

  function takeTare(): boolean {
    const at = clock.now();
    if (moving(at) || felt(at) - zeroAt < 0) return false;
    tare = massFromBase(Math.round((felt(at) - zeroAt) / division) * division);
    return true;
  }

  function show(display: DisplayUnit): void {
    ({ unit, places, division, pounds } = display);
  }

  const letter = (): string => (tare === 0 ? 'G' : 'N');

  function continuousFrame(): string {
    const at = clock.now();
    const status = overloaded(at) ? 'OL' : moving(at) ? 'US' : 'ST';
    const mass = shown(at);
    const digits = overloaded(at) ? '-------' : massDigits(massFromBase(Math.abs(mass)), unit, places).padStart(7);
    return `${status},${tare === 0 ? 'GS' : 'NT'},${mass < 0 ? '-' : '+'}${digits}${unit.padStart(2)}\r\n`;
  }

  const unitField = (): string => (pounds === true ? 'l/o' : unit.padEnd(3, '_'));

  /** Ten characters. */
  function weightField(mass: Mass, digits: number): string {
    if (pounds !== true) return massDigits(mass, unit, digits).padStart(10);
    const ounce = massFromDecimal('1', 'oz');
    const size = Math.abs(mass);
    const whole = Math.floor(size / (16 * ounce));
    const rest = massDigits(massFromBase(size - whole * 16 * ounce), 'oz', digits);
    return `${mass < 0 ? '-' : ''}${whole} ${rest.padStart(digits === 0 ? 2 : digits + 3, '0')}`.padStart(10);
  }

  /** @param fine with a digit more than the display shows */
  function smaFrame(fine = false): string {
    const at = clock.now();
    const step = fine ? division / 10 : division;
    const mass = massFromBase(Math.round((felt(at) - zeroAt - tare) / step) * step);
    const status = overloaded(at) ? 'O' : shown(at) === 0 ? 'Z' : ' ';
    const weight = overloaded(at) ? '----------' : weightField(mass, fine ? places + 1 : places);
    return `\n${status}1${letter()}${moving(at) ? 'M' : ' '} ${weight}${unitField()}\r`;
  }

  const tareFrame = (): string => `\n 1T  ${weightField(tare, places)}${unitField()}\r`;

  /** T with a weight in the unit of the display. */
  function presetTare(text: string): boolean {
    if (!/^\d+(\.\d+)?$/.test(text) || pounds === true) return false;
    tare = massFromDecimal(text, unit);
    return true;
  }

  function showUnit(name: string): boolean {
    const display = displays.find((each) => (each.pounds === true ? 'l/o' : each.unit) === name);
    if (display !== undefined) show(display);
    return display !== undefined;
  }

  /** Scale data report of the USB HID Point of Sale Usage Tables, 4: number, status, unit, exponent, 16-bit count. */
  function hidReport(): Buffer {
    const at = clock.now();
    const mass = shown(at);
    const status = overloaded(at) ? 6 : moving(at) ? 3 : mass === 0 ? 2 : mass < 0 ? 5 : 4;
    const count = Math.min(
      0xffff,
      Math.round(Number(massDigits(massFromBase(Math.abs(mass)), unit, places)) * 10 ** places),
    );
    return Buffer.from([3, status, HID_UNITS[unit], -places & 0xff, count & 0xff, count >> 8]);
  }

  const refusal = (status: 'E' | 'T'): string =>
    `\n${status}1${letter()}${moving(clock.now()) ? 'M' : ' '} ----------${unitField()}\r`;

  function answer(command: string, line: Line): string | null {
    line.repeat = null;
    if (options.protocol === 'hid') return null;
    if (options.protocol === 'continuous') {
      if (command === 'Z') zero();
      if (command === 'T') takeTare();
      return null;
    }
    switch (command) {
      case 'W':
        return smaFrame();
      case 'H':
        return smaFrame(true);
      case 'P':
      case 'Q':
        return whenStill(line, command === 'Q');
      case 'R':
      case 'S':
        line.repeat = command === 'S' ? 'fine' : 'plain';
        return smaFrame(command === 'S');
      case 'M':
        return tareFrame();
      case 'Z':
        // SCP-0499: the scale answers with its weight, status E when the zero could not be set.
        return zero() ? smaFrame() : refusal('E');
      case 'T':
        return takeTare() ? smaFrame() : refusal('T');
      case 'C':
        tare = ZERO_MASS;
        return smaFrame();
      case 'U':
        turned = (turned + 1) % displays.length;
        show(displays[turned] ?? options);
        return smaFrame();
      case 'D':
        return '\n    \r';
      case 'A':
        told = 0;
        return `\n${ABOUT[0] ?? ''}\r`;
      case 'B':
        told = Math.min(told + 1, ABOUT.length - 1);
        return `\n${ABOUT[told] ?? ''}\r`;
      case '\x1b':
        return null;
      default:
        if (command.startsWith('T') && presetTare(command.slice(1))) return smaFrame();
        if (command.startsWith('U') && showUnit(command.slice(1))) return smaFrame();
        return '\n?\r';
    }
  }

  /** The frame at once when the load is still, else as soon as it is. */
  function whenStill(line: Line, fine: boolean): string | null {
    if (!moving(clock.now())) return smaFrame(fine);
    clock.after(EVERY_MS, () => {
      const frame = whenStill(line, fine);
      if (frame !== null && lines.has(line)) line.stream.write(frame);
    });
    return null;
  }

  function tell(): void {
    if (options.protocol !== 'sma') {
      const frame = options.protocol === 'hid' ? hidReport() : continuousFrame();
      // A display sends to nobody in particular: a reader that does not keep up loses frames.
      for (const { stream } of lines) if (stream.writableLength === 0) stream.write(frame);
    }
    for (const { stream, repeat } of lines) {
      if (repeat !== null && stream.writableLength === 0) stream.write(smaFrame(repeat === 'fine'));
    }
    cancel = clock.after(EVERY_MS, tell);
  }
  tell();

  return {
    putMass: change,
    emptyPan: () => change(ZERO_MASS),
    drift(mass) {
      drifted = massFromBase(drifted + mass);
    },
    switchUnit: show,
    attach(stream) {
      const line: Line = { stream, repeat: null };
      lines.add(line);
      let typed = '';
      stream.on('data', (chunk: Buffer) => {
        for (const character of chunk.toString('latin1')) {
          if (character === '\r' || character === '\n') {
            const reply = typed === '' ? null : answer(typed, line);
            typed = '';
            if (reply !== null) stream.write(reply);
          } else {
            typed = (typed + character).slice(-16);
          }
        }
      });
      const drop = (): void => void lines.delete(line);
      stream.on('close', drop);
      stream.on('error', drop);
    },
    stop() {
      cancel();
      lines.clear();
    },
  };
}
