import { systemClock } from '#drivers/clock.ts';
import { answersFor } from '#drivers/printer/answers.ts';
import { commandCardsDocument } from '#drivers/printer/documents/command-cards.ts';
import { slipDocument } from '#drivers/printer/documents/slip.ts';
import { encode } from '#drivers/printer/encode.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { paperSvg } from '#drivers/printer/paper-svg.ts';
import { continuousDecoder } from '#drivers/scale/continuous.ts';
import type { ScaleDecoder, ScaleFrame } from '#drivers/scale/frames.ts';
import { hidDecoder } from '#drivers/scale/hid-report.ts';
import { ownDecoder } from '#drivers/scale/own-form.ts';
import { smaDecoder } from '#drivers/scale/sma.ts';
import { scanDecoder } from '#drivers/scanner/decoder.ts';
import { scanMeaning } from '#shared/codes/scan-meaning.ts';
import type { KnownCodes } from '#shared/codes/types.ts';
import { massDigits, massFromBase } from '#shared/units/mass.ts';
import { PAPER_58, SLIP, WARNING } from '../drivers/printer/support.ts';
import { atMost, plain, type Figure } from './figure.ts';

const BENCH = 'devices';

/** A generator whose numbers are the same in every run (xorshift). */
function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

/** One frame, damaged as lines damage them: bits turned, bytes lost, doubled, inserted, the rest cut off. */
export function damage(frame: Uint8Array, below: (bound: number) => number): Uint8Array {
  let bytes = Array.from(frame);
  for (let times = 1 + below(3); times > 0; times -= 1) {
    const at = below(bytes.length + 1);
    switch (below(5)) {
      case 0:
        if (at < bytes.length) bytes[at] = (bytes[at] ?? 0) ^ (1 << below(8));
        break;
      case 1:
        bytes.splice(at, 1 + below(3));
        break;
      case 2:
        bytes.splice(at, 0, ...bytes.slice(at, at + 1 + below(3)));
        break;
      case 3:
        bytes.splice(at, 0, below(256));
        break;
      default:
        bytes = bytes.slice(0, at);
    }
  }
  return Uint8Array.from(bytes);
}

interface Counts {
  thrown: number;
  invented: number;
  damagedTaken: number;
  damaged: number;
  /** byte strings that the interpreter read */
  papers: number;
  swollen: number;
}

/** True when the number and unit of a weight stand in the bytes: it was read, not made up. */
function standsIn(frame: Extract<ScaleFrame, { kind: 'weight' }>, text: string): boolean {
  const digits = massDigits(massFromBase(Math.abs(frame.mass)), frame.unit, frame.places);
  return text.includes(digits) && text.toLowerCase().includes(frame.unit);
}

function fuzzText(
  decoder: ScaleDecoder,
  make: (below: (bound: number) => number) => string,
  frames: number,
  counts: Counts,
): void {
  const below = numbers(20260101);
  let before = '';
  for (let turn = 0; turn < frames; turn += 1) {
    const good = make(below);
    const whole = new Uint8Array(Buffer.from(good, 'latin1'));
    const isDamaged = below(4) !== 0;
    const bytes = isDamaged ? damage(whole, below) : whole;
    const text = before + Buffer.from(bytes).toString('latin1');
    try {
      const out = decoder.push(bytes);
      if (isDamaged) counts.damaged += 1;
      for (const frame of out) {
        if (frame.kind !== 'weight') continue;
        if (!standsIn(frame, text)) counts.invented += 1;
        if (isDamaged && !standsIn(frame, before + good)) counts.damagedTaken += 1;
      }
    } catch {
      counts.thrown += 1;
    }
    // A frame may begin in one turn and end in a later one.
    before = text.slice(-120);
  }
}

/** A read of a document takes as long as hundreds of frames. */
const PAPER_EVERY = 25;
const CODES = [
  'BFO-1047',
  ']C14201234567\x1d9212391234567812345670',
  '(00)376104250021234569',
  'RB473124829XX',
  'OT-0311',
];
const NOTHING_KNOWN: KnownCodes = {
  isSku: () => false,
  isOrder: () => false,
  isContainer: () => false,
  staffByBadge: () => null,
};
const DOCUMENTS = [
  encode(slipDocument({ ...SLIP, warning: WARNING }), PAPER_58),
  encode(commandCardsDocument('cards', [{ code: 'BFC-PAY-NEXT-BRACKET', name: 'pay the next bracket' }]), PAPER_58),
];

function pick<Value>(list: readonly Value[], below: (bound: number) => number): Value {
  const found = list[below(list.length)];
  if (found === undefined) throw new Error('an empty list');
  return found;
}

/** What a printer could be sent: documents damaged anywhere, and bytes that never were one. */
function fuzzPaper(turn: number, below: (bound: number) => number, counts: Counts): void {
  const bytes =
    turn % (2 * PAPER_EVERY) === 0
      ? damage(pick(DOCUMENTS, below), below)
      : Uint8Array.from({ length: 200 }, () => below(256));
  const paper = interpret(bytes, PAPER_58);
  counts.papers += 1;
  // The picture of a document is no larger than what was sent.
  if (paper.rows.length > bytes.length || paper.unknown.length > 100) counts.swollen += 1;
  if (turn % (20 * PAPER_EVERY) === 0) paperSvg(paper);
}

/** Long runs of damaged frames through every decoder: nothing throws, nothing is made up, memory stays. */
export function fuzzDecoders(frames: number): readonly Figure[] {
  const counts: Counts = { thrown: 0, invented: 0, damagedTaken: 0, damaged: 0, papers: 0, swollen: 0 };
  const weight = (below: (bound: number) => number): string => `${below(200)}.${below(10)}`;
  const began = performance.now();
  const share = Math.ceil(frames / 4);
  globalThis.gc?.();
  const heapBefore = process.memoryUsage().heapUsed;

  fuzzText(continuousDecoder(), (below) => `ST,GS,+${weight(below).padStart(7)}oz\r\n`, share, counts);
  fuzzText(smaDecoder(), (below) => `\n 1G  ${weight(below).padStart(10)}oz_\r`, share, counts);
  fuzzText(
    ownDecoder({ kind: 'own', pattern: '(?<status>[SD]) +(?<number>\\d+\\.\\d) (?<unit>oz)', words: { still: ['S'] } }),
    (below) => `S ${weight(below).padStart(6)} oz\r\n`,
    share,
    counts,
  );

  const below = numbers(42);
  const hid = hidDecoder();
  const scans = scanDecoder();
  const answers = answersFor(systemClock);
  for (let turn = 0; turn < share; turn += 1) {
    try {
      const report = damage(Uint8Array.of(3, below(9), below(14), below(256), below(256), below(256)), below);
      for (const frame of hid.push(report)) {
        const mark = report[1] ?? 0;
        const isWeight = report.length === 6 && report[0] === 3 && mark >= 2 && mark <= 5;
        if (frame.kind === 'weight' && !isWeight) counts.invented += 1;
      }
      for (const read of scans.push(
        damage(new Uint8Array(Buffer.from(`${pick(CODES, below)}\r`, 'latin1')), below),
        turn,
      )) {
        if (read.kind === 'scan') scanMeaning(read.text, NOTHING_KNOWN);
      }
      answers.take(Uint8Array.of(below(256), below(256)));
      if (turn % PAPER_EVERY === 0) fuzzPaper(turn, below, counts);
    } catch {
      counts.thrown += 1;
    }
  }

  const seconds = (performance.now() - began) / 1000;
  globalThis.gc?.();
  const grown = (process.memoryUsage().heapUsed - heapBefore) / 1e6;
  const against = `${share * 4} frames, three in four damaged, and ${counts.papers} documents, in ${seconds.toFixed(1)} s`;
  return [
    atMost({ bench: BENCH, name: 'decoders that threw', value: counts.thrown, unit: 'times', goal: 0, against }),
    atMost({
      bench: BENCH,
      name: 'weights that stand in no bytes',
      value: counts.invented,
      unit: 'weights',
      goal: 0,
      against,
    }),
    atMost({
      bench: BENCH,
      name: 'papers larger than their bytes',
      value: counts.swollen,
      unit: 'papers',
      goal: 0,
      against,
    }),
    plain({
      bench: BENCH,
      name: 'damaged frames of the right form, taken for another weight',
      value: counts.damagedTaken / Math.max(1, counts.damaged),
      unit: 'share',
      against: 'frames carry no checksum: two agreeing readings are asked for before a capture',
    }),
    atMost({ bench: BENCH, name: 'heap grown by damaged frames', value: grown, unit: 'MB', goal: 50, against }),
  ];
}
