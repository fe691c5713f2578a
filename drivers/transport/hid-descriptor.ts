/** Where in a feature report of a HID device one control lies. */
export interface ControlField {
  /** 0 where the device numbers no reports */
  readonly reportNumber: number;
  /** length of the report without its number */
  readonly bytes: number;
  /** first bit of the field, from the least significant bit of the first byte on */
  readonly bit: number;
  readonly bits: number;
  /** what the field must hold for the control to be set */
  readonly value: number;
}

/** Item types and tags of the report descriptor (Device Class Definition for HID 1.11, 6.2.2). */
const MAIN = 0;
const GLOBAL = 1;
const LOCAL = 2;
const FEATURE = 0x0b;
const USAGE_PAGE = 0;
const LOGICAL_MINIMUM = 1;
const REPORT_SIZE = 7;
const REPORT_ID = 8;
const REPORT_COUNT = 9;
const PUSH = 0x0a;
const POP = 0x0b;
const USAGE = 0;
const USAGE_MINIMUM = 1;
const USAGE_MAXIMUM = 2;
const LONG_ITEM = 0xfe;
const DATA_BYTES = [0, 1, 2, 4] as const;
/** No device has more; a damaged descriptor may say so. */
const MOST_FIELDS = 1024;
const MOST_PUSHED = 16;

interface Globals {
  readonly page: number;
  readonly least: number;
  readonly size: number;
  readonly count: number;
  readonly number: number;
}

interface Locals {
  readonly usages: readonly number[];
  readonly from: number | null;
  readonly to: number | null;
}

const NO_LOCALS: Locals = { usages: [], from: null, to: null };

/**
 * Finds a control among the feature reports that a device describes; null when it has none.
 * @param usage usage page in the upper 16 bits, usage in the lower
 */
export function featureControl(descriptor: Uint8Array, usage: number): ControlField | null {
  let globals: Globals = { page: 0, least: 0, size: 0, count: 0, number: 0 };
  const pushed: Globals[] = [];
  let locals = NO_LOCALS;
  /** bits so far of each feature report */
  const lengths = new Map<number, number>();
  let found: Omit<ControlField, 'bytes'> | null = null;

  for (const { type, tag, data, wide } of items(descriptor)) {
    if (type === GLOBAL) {
      if (tag === PUSH && pushed.length < MOST_PUSHED) pushed.push(globals);
      else if (tag === POP) globals = pushed.pop() ?? globals;
      else globals = withGlobal(globals, tag, data);
    } else if (type === LOCAL) {
      locals = withLocal(locals, tag, wide ? data : globals.page * 0x10000 + data);
    } else if (type === MAIN) {
      if (tag === FEATURE) {
        const { number, size, count } = globals;
        const from = lengths.get(number) ?? 0;
        if (count > MOST_FIELDS || size > 32) return null;
        found ??= fieldIn(globals, locals, data, usage, from);
        lengths.set(number, from + size * count);
      }
      locals = NO_LOCALS;
    }
  }
  if (found === null) return null;
  return { ...found, bytes: Math.ceil((lengths.get(found.reportNumber) ?? 0) / 8) };
}

/** The report with the control set and all else as it is. The number comes first. */
export function withControl(field: ControlField, report: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(field.bytes + 1);
  bytes.set(report.subarray(0, bytes.length));
  bytes[0] = field.reportNumber;
  for (let at = 0; at < field.bits; at += 1) {
    const bit = field.bit + at;
    const byte = 1 + (bit >> 3);
    const mask = 1 << (bit & 7);
    const old = bytes[byte] ?? 0;
    bytes[byte] = ((field.value >> at) & 1) === 1 ? old | mask : old & ~mask;
  }
  return bytes;
}

/** @param flags of the main item: bit 0 constant, bit 1 variable (HID 1.11, 6.2.2.5) */
function fieldIn(
  { number, size, count, least }: Globals,
  locals: Locals,
  flags: number,
  usage: number,
  from: number,
): Omit<ControlField, 'bytes'> | null {
  if ((flags & 1) === 1 || size === 0 || count === 0) return null;
  const index = indexOf(locals, usage);
  if (index === null) return null;
  const variable = (flags & 2) !== 0;
  // The last usage stands for all the fields that are left.
  if (variable && index >= count) return null;
  const bit = variable ? from + index * size : from;
  return { reportNumber: number, bit, bits: size, value: variable ? 1 : least + index };
}

function indexOf({ usages, from, to }: Locals, usage: number): number | null {
  const listed = usages.indexOf(usage);
  if (listed >= 0) return listed;
  return from !== null && to !== null && usage >= from && usage <= to ? usages.length + usage - from : null;
}

function withGlobal(globals: Globals, tag: number, data: number): Globals {
  switch (tag) {
    case USAGE_PAGE:
      return { ...globals, page: data };
    case LOGICAL_MINIMUM:
      return { ...globals, least: data };
    case REPORT_SIZE:
      return { ...globals, size: data };
    case REPORT_ID:
      return { ...globals, number: data };
    case REPORT_COUNT:
      return { ...globals, count: data };
    default:
      return globals;
  }
}

function withLocal(locals: Locals, tag: number, usage: number): Locals {
  if (tag === USAGE && locals.usages.length < MOST_FIELDS) return { ...locals, usages: [...locals.usages, usage] };
  if (tag === USAGE_MINIMUM) return { ...locals, from: usage };
  return tag === USAGE_MAXIMUM ? { ...locals, to: usage } : locals;
}

interface Item {
  readonly type: number;
  readonly tag: number;
  readonly data: number;
  /** the data is as long as a usage with its page */
  readonly wide: boolean;
}

function* items(descriptor: Uint8Array): Generator<Item> {
  let at = 0;
  while (at < descriptor.length) {
    const prefix = descriptor[at] ?? 0;
    if (prefix === LONG_ITEM) {
      at += 3 + (descriptor[at + 1] ?? 0);
      continue;
    }
    const length = DATA_BYTES[prefix & 3] ?? 0;
    let data = 0;
    for (let byte = length; byte > 0; byte -= 1) data = data * 256 + (descriptor[at + byte] ?? 0);
    yield { type: (prefix >> 2) & 3, tag: prefix >> 4, data, wide: length === 4 };
    at += 1 + length;
  }
}
