import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchDesk, LabelPrinterDesk, PrintJobRow } from '#shared/wire/devices.ts';
import { shape } from '../components/shapes.ts';
import { labelPrinterWords } from '../i18n/label-printer.ts';
import { deskStyles } from './desk-styles.ts';
import { DeviceElement } from './device-element.ts';
import { howLong } from './how-long.ts';
import { printJobLine } from './print-job-line.ts';
import { DEVICE_STANDING } from './standings.ts';

/** The label printer of a bench: how it is, a trial label, and what became of the newest ones. */
@customElement('bf-label-printer-desk')
export class LabelPrinterDeskElement extends DeviceElement {
  @property({ attribute: false }) desk!: BenchDesk;
  @property({ type: Number }) now = 0;

  override render(): TemplateResult | null {
    const { labelPrinter } = this.desk;
    if (labelPrinter === null) return null;
    const { words, say } = this;
    const own = labelPrinterWords[this.language];
    const { state, trouble, since, failure, answers } = labelPrinter;
    const what = words.troubles[trouble];
    return html`<h3>${own.title}</h3>
      <p class="said" data-label-printer=${state}>
        ${shape(DEVICE_STANDING[state], 22)}
        <span
          ><b>${words.deviceStates[state]}</b>${what === '' ? null : html`: ${what}`}
          <span class="secondary">${own.since(howLong(this.now - since, say))}</span></span
        >
      </p>
      <p class="secondary">
        ${own.speaks(labelPrinter.speaks === 'zpl' ? 'ZPL' : 'ESC/POS', labelPrinter.simulated ? own.simulated : labelPrinter.place)}
      </p>
      ${answers ? null : html`<p class="secondary">${own.mute}</p>`}
      ${failure === null ? null : html`<p class="secondary"><code>${failure}</code></p>`}
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      <p class="tools">
        <button
          type="button"
          class="main"
          data-do="label-trial"
          @click=${() => this.ask({ do: 'trial', language: this.language })}
        >
          ${own.trial}
        </button>
        ${labelPrinter.simulated ? this.cable(labelPrinter) : null}
      </p>
      ${labelPrinter.jobs.length === 0 ? html`<p class="secondary">${own.none}</p>` : this.jobs(labelPrinter)}`;
  }

  private cable({ state }: LabelPrinterDesk): TemplateResult {
    const own = labelPrinterWords[this.language];
    return state === 'lost'
      ? html`<button type="button" data-do="label-plug" @click=${() => this.ask({ do: 'plug' })}>${own.plug}</button>`
      : html`<button type="button" data-do="label-unplug" @click=${() => this.ask({ do: 'unplug' })}>
          ${own.pull}
        </button>`;
  }

  private jobs({ jobs }: LabelPrinterDesk): TemplateResult {
    return html`<ul class="jobs" data-list="label-jobs">
      ${jobs.map((job) => this.job(job))}
    </ul>`;
  }

  private job(job: PrintJobRow): TemplateResult {
    const { say } = this;
    const name = job.order === null ? job.title : `${job.order}, ${String(job.parcel + 1)}`;
    return html`<li data-state=${job.state}>${printJobLine(job, name, say, this.language)}</li>`;
  }

  private ask(wish: Parameters<typeof this.api.labelPrinter>[1]): void {
    void this.change(() => this.api.labelPrinter(this.desk.bench.id, wish));
  }

  static override styles = deskStyles;
}
