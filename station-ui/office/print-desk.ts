import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { PRINTABLES } from '#shared/wire/devices.ts';
import type { BenchDesk, JobPaper, PrintJobRow, PrintPreview, Printable } from '#shared/wire/devices.ts';
import { shape } from '../components/shapes.ts';
import { printJobLine } from './print-job-line.ts';
import { deskStyles } from './desk-styles.ts';
import { DeviceElement } from './device-element.ts';

/** The printer of a bench: documents with a look at the paper first, and the queue with what a person must settle. */
@customElement('bf-print-desk')
export class PrintDesk extends DeviceElement {
  @property({ attribute: false }) desk!: BenchDesk;
  @state() private what: Printable = 'test';
  @state() private skus = '';
  @state() private certificate = { name: '', supervisor: '', learned: '' };
  @state() private shown: PrintPreview | null = null;
  /** the job of which a copy is asked for, until that is confirmed */
  @state() private asking: number | null = null;
  @state() private past: (JobPaper & { readonly id: number }) | null = null;

  override render(): TemplateResult {
    const { say, shown } = this;
    return html`<h3>${say.print}</h3>
      <div class="tools">
        <select aria-label=${say.print} data-choose="document" @change=${this.choose}>
          ${PRINTABLES.map((each) => html`<option value=${each}>${say.printables[each]}</option>`)}
        </select>
        ${
          this.what === 'piece-labels'
            ? html`<label
                >${say.skus}
                <input
                  type="search"
                  data-field="skus"
                  .value=${this.skus}
                  @input=${(event: Event) => (this.skus = (event.target as HTMLInputElement).value)}
              /></label>`
            : null
        }
        ${this.what === 'certificate' ? this.certificateFields() : null}
        <button type="button" data-do="preview" @click=${() => this.document(false)}>${say.preview}</button>
        <button type="button" class="main" data-do="print" @click=${() => this.document(true)}>${say.printIt}</button>
      </div>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${shown === null ? null : this.paper(shown)}
      <h3>${say.queue}</h3>
      ${this.desk.jobs.length === 0 ? html`<p>${say.noJobs}</p>` : this.queue()}`;
  }

  private paper(shown: PrintPreview): TemplateResult {
    const { say } = this;
    return html`${shown.queued ? html`<p class="said" role="status">${shape('well', 20)} ${say.queued(shown.title)}</p>` : null}
    ${shown.replaced.length === 0 ? null : html`<p data-replaced>${say.replaced(shown.replaced.join(' '))}</p>`}
    ${this.picture(shown.title, shown.svg)}`;
  }

  private picture(title: string, svg: string): TemplateResult {
    return html`<div class="paper" tabindex="0">
      <img alt=${this.say.paperPicture(title)} src=${`data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`} />
    </div>`;
  }

  private queue(): TemplateResult {
    return html`<ul class="jobs" data-list="jobs">
      ${this.desk.jobs.map((job) => this.job(job))}
    </ul>`;
  }

  private job(job: PrintJobRow): TemplateResult {
    const { say } = this;
    const name = job.order === null ? job.title : say.slipOf(job.order, job.parcel + 1);
    return html`<li data-job=${job.id} data-state=${job.state}>
      ${printJobLine(job, name, say, this.language)}
      <button
        type="button"
        data-do="paper"
        aria-expanded=${this.past?.id === job.id ? 'true' : 'false'}
        @click=${() => this.lookAt(job)}
      >
        ${say.jobPaper}
      </button>
      ${job.state === 'printed' ? this.copying(job) : null}
      ${this.past?.id === job.id ? this.picture(name, this.past.svg) : null}
      ${job.replaced === '' ? null : html`<p class="secondary">${say.replaced(job.replaced)}</p>`}
      ${
        job.state === 'unknown'
          ? html`<p>${say.settleHow}</p>
              <p class="tools">
                <button type="button" data-settle="printed" @click=${() => this.settle(job, 'printed')}>
                  ${say.settlePrinted}
                </button>
                <button type="button" data-settle="again" @click=${() => this.settle(job, 'again')}>
                  ${say.settleAgain}
                </button>
              </p>`
          : null
      }
    </li>`;
  }

  /** What came out once comes out again only when somebody says so twice. */
  private copying(job: PrintJobRow): TemplateResult {
    const { say } = this;
    if (this.asking !== job.id)
      return html`<button type="button" data-do="copy" @click=${() => (this.asking = job.id)}>${say.copyIt}</button>`;
    return html`<p class="said" role="status">${shape('attention', 20)} <span>${say.copyHow}</span></p>
      <p class="tools">
        <button type="button" data-copy="yes" @click=${() => this.copy(job)}>${say.copyYes}</button>
        <button type="button" data-copy="no" @click=${() => (this.asking = null)}>${say.copyNo}</button>
      </p>`;
  }

  private copy(job: PrintJobRow): void {
    this.asking = null;
    void this.change(() => this.api.copy(this.desk.bench.id, job.id, this.language));
  }

  private readonly choose = (event: Event): void => {
    const chosen = (event.target as HTMLSelectElement).value;
    this.what = PRINTABLES.find((each) => each === chosen) ?? 'test';
    this.shown = null;
  };

  private document(print: boolean): void {
    void this.attempt(async () => {
      const ids = this.ids();
      this.shown = await this.api.document(this.desk.bench.id, {
        what: this.what,
        language: this.language,
        ids,
        print,
      });
      if (print) this.changed();
    });
  }

  private ids(): readonly string[] {
    const { name, supervisor, learned } = this.certificate;
    const parted = (text: string, by: RegExp): readonly string[] =>
      text
        .split(by)
        .map((each) => each.trim())
        .filter((each) => each !== '');
    if (this.what === 'piece-labels') return parted(this.skus, /[\s,;]+/);
    if (this.what !== 'certificate' || name.trim() === '') return [];
    // A place that is left empty keeps its place on the paper.
    return [name.trim(), supervisor.trim() === '' ? '-' : supervisor.trim(), ...parted(learned, /;/)];
  }

  private certificateFields(): TemplateResult {
    const { say } = this;
    return html`${(['name', 'supervisor', 'learned'] as const).map(
      (field) =>
        html`<label
          >${say.certificate[field]}
          <input
            type="search"
            data-field=${field}
            .value=${this.certificate[field]}
            @input=${(event: Event) => {
              this.certificate = { ...this.certificate, [field]: (event.target as HTMLInputElement).value };
            }}
        /></label>`,
    )}`;
  }

  private readonly lookAt = (job: PrintJobRow): void => {
    if (this.past?.id === job.id) {
      this.past = null;
      return;
    }
    void this.attempt(async () => {
      this.past = { ...(await this.api.jobPaper(this.desk.bench.id, job.id)), id: job.id };
    });
  };

  private settle(job: PrintJobRow, as: 'printed' | 'again'): void {
    void this.change(() => this.api.settle(this.desk.bench.id, job.id, as));
  }

  static override styles = [
    ...deskStyles,
    css`
      .paper {
        max-height: 420px;
        overflow: auto;
        margin-top: 8px;
        border: 2px dashed var(--thread);
        background: #fff;
      }
      .paper img {
        display: block;
        width: min(100%, 420px);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-print-desk': PrintDesk;
  }
}
