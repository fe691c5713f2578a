import { z } from 'zod';
import type { Delivered } from './deliver.ts';
import { scanMeaning } from '#shared/codes/scan-meaning.ts';
import type { AnsweredLabel } from '#server/store/label-requests.ts';
import { plainNumber } from '#shared/labels/same-number.ts';
import { LABEL_TYPES, LABEL_VERSION, type LabelType, type WhyNot } from '#shared/wire/label.ts';

/**
 * What an answer means. `again`: it may go better later; `never`: the receiver has refused this request, and would again.
 * `said` is what a person should see of it.
 */
export type Judged =
  | { readonly verdict: 'answered'; readonly label: AnsweredLabel; readonly said: string }
  | { readonly verdict: 'again' | 'never'; readonly why: WhyNot; readonly said: string; readonly afterMs?: number };

/** Refused for now: timeout, too early, too many requests. */
const PASSING: ReadonlySet<number> = new Set([408, 425, 429]);
const MOST_SAID = 600;
const LONGEST_NUMBER = 64;

/** What it does not know is left alone: a receiver may say more than we ask. */
export const answerSchema = z.object({
  version: z.literal(LABEL_VERSION).optional(),
  trackingNumber: z
    .string()
    .trim()
    .min(1)
    .max(LONGEST_NUMBER)
    .regex(/^[\x20-\x7e]+$/, 'expected printable ASCII')
    .optional(),
  label: z.object({ type: z.enum(LABEL_TYPES), data: z.base64().min(4) }).optional(),
});

export function judge(delivered: Delivered, now: number): Judged {
  switch (delivered.came) {
    case 'timeout':
      return { verdict: 'again', why: 'timeout', said: '' };
    case 'nothing':
      return { verdict: 'again', why: 'no-connection', said: readable(delivered.message) };
    case 'too-large':
      return { verdict: 'again', why: 'too-large', said: `HTTP ${String(delivered.status)}` };
    case 'redirect':
      return { verdict: 'never', why: 'redirect', said: readable(`HTTP ${String(delivered.status)} ${delivered.to}`) };
    case 'answer':
      return judgeAnswer(delivered, now);
  }
}

function judgeAnswer({ status, type, body, retryAfter }: Extract<Delivered, { came: 'answer' }>, now: number): Judged {
  const text = Buffer.from(body).toString('utf8');
  const said = readable(`HTTP ${String(status)} ${text}`);
  if (status < 200 || status > 299) {
    const passing = status >= 500 || status < 200 || PASSING.has(status);
    const afterMs = passing ? waitAsked(retryAfter, now) : undefined;
    return { verdict: passing ? 'again' : 'never', why: 'status', said, ...(afterMs === undefined ? {} : { afterMs }) };
  }
  // Taken, and nothing to say: the label comes another way.
  if (text.trim() === '') return { verdict: 'answered', label: { tracking: null, type: null, bytes: null }, said };
  if (!/^application\/(?:[\w.+-]+\+)?json\s*(?:;|$)/i.test(type)) {
    return { verdict: 'again', why: 'not-json', said: readable(`${type === '' ? 'no content type' : type}: ${text}`) };
  }
  return understood(text, said);
}

function understood(text: string, said: string): Judged {
  const parsed = answerSchema.safeParse(json(text));
  if (!parsed.success) {
    return { verdict: 'again', why: 'not-understood', said: readable(`${z.prettifyError(parsed.error)} — ${text}`) };
  }
  const { trackingNumber, label } = parsed.data;
  const bytes = label === undefined ? null : Buffer.from(label.data, 'base64');
  if (label !== undefined && bytes !== null && !looksLike(label.type, bytes)) {
    return { verdict: 'again', why: 'not-understood', said: readable(`label.data is no ${label.type} — ${text}`) };
  }
  const tracking = trackingNumber === undefined ? null : asScanned(trackingNumber);
  return {
    verdict: 'answered',
    label: { tracking, type: label?.type ?? null, bytes },
    said: label === undefined ? said : readable(JSON.stringify({ trackingNumber, label: label.type })),
  };
}

function json(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** Bytes that are not what they are called would come out of a printer as a ream of signs. */
export function looksLike(type: LabelType, bytes: Uint8Array): boolean {
  const head = Buffer.from(bytes.subarray(0, 1024)).toString('latin1');
  switch (type) {
    case 'pdf':
      return head.startsWith('%PDF-');
    case 'png':
      return PNG.every((byte, at) => bytes[at] === byte);
    case 'zpl':
      return /^\s*(?:\^|~)/.test(head) && Buffer.from(bytes).includes('^XZ');
    case 'escpos':
      // Anything may be text for such a printer, but a document or a page of markup is none.
      return bytes.length > 0 && !head.startsWith('%PDF-') && !/^\s*<[!a-z]/i.test(head) && !looksLike('png', bytes);
  }
}

/** As the scan of its label will say it, whatever was put in front of it. */
export function asScanned(number: string): string {
  const meaning = scanMeaning(number, NOTHING_KNOWN);
  return meaning.means === 'label' ? meaning.number : plainNumber(number);
}

const NOTHING_KNOWN = { isSku: () => false, isContainer: () => false, isOrder: () => false, staffByBadge: () => null };

/** Seconds, or a date (RFC 9110, 10.2.3). */
function waitAsked(retryAfter: string | null, now: number): number | undefined {
  if (retryAfter === null) return undefined;
  const ms = /^\d+$/.test(retryAfter) ? Number(retryAfter) * 1000 : Date.parse(retryAfter) - now;
  return Number.isFinite(ms) && ms > 0 ? ms : undefined;
}

function readable(text: string): string {
  const plain = text.replace(/\p{Cc}+/gu, ' ').trim();
  return plain.length > MOST_SAID ? `${plain.slice(0, MOST_SAID)}…` : plain;
}
