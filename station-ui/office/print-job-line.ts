import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { PrintJobRow } from '#shared/wire/devices.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import type { DevicesWords } from '../i18n/devices-words.ts';
import { dayAndTime } from '../i18n/time.ts';
import { JOB_STANDING } from './standings.ts';

/** A print in one line: what became of it and why, its name, and when it was asked for. */
export function printJobLine(job: PrintJobRow, name: string, say: DevicesWords, language: Language): TemplateResult {
  const at = dayAndTime(new Date(job.madeAt).toISOString(), language, { now: new Date(), timeZone: undefined });
  const why = job.state === 'printed' && job.why === 'printed' ? '' : (say.jobWhys[job.why] ?? job.why);
  return html`<span class="said"
    >${shape(JOB_STANDING[job.state], 20)}
    <span><b>${say.jobStates[job.state]}</b>${why === '' ? null : html` (${why})`}: ${name}, ${at}</span></span
  >`;
}
