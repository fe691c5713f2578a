import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PrintPreview } from '#shared/wire/devices.ts';
import type { HandOverView, Sheet } from '#shared/wire/hand-over.ts';
import type { BenchRow } from '#shared/wire/office.ts';
import '../components/data-table.ts';
import { shape } from '../components/shapes.ts';
import { handOverWords } from '../i18n/hand-over.ts';
import { tableWords } from '../i18n/table.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask } from './api.ts';
import { parcelColumns, shownMass } from './hand-over-table.ts';
import { PageElement, sent } from './page-element.ts';

/** What left at one collection: every parcel, count and mass, and the lines to sign on. Printed here or at a bench. */
@customElement('bf-hand-over-sheet')
export class HandOverSheet extends PageElement {
  @property({ attribute: false }) sheet!: Sheet;
  @property({ attribute: false }) view!: HandOverView;
  @property({ attribute: false }) benches: readonly BenchRow[] = [];
  @state() private said = '';

  override render(): TemplateResult {
    const words = handOverWords[this.language];
    const { sheet, view } = this;
    const clock = { now: new Date(view.now), timeZone: view.timeZone };
    const closed = dayAndTime(new Date(sheet.closedAt).toISOString(), this.language, clock);
    return html`<article data-sheet=${sheet.id}>
      <div class="heading">
        <h2>${words.sheet}: ${sheet.name[this.language]}</h2>
        <span class="no-print">
          ${this.benches.map(
            (bench) =>
              html`<button type="button" data-print-sheet=${bench.id} @click=${() => this.print(bench)}>
                ${words.printAt(bench.name)}
              </button>`,
          )}
          <button type="button" data-print-page @click=${() => window.print()}>
            ${tableWords[this.language].print}
          </button>
          <button type="button" data-put-away @click=${() => this.dispatchEvent(new CustomEvent('bf-put-away'))}>
            ${words.putAway}
          </button>
        </span>
      </div>
      ${this.alert()}
      ${this.said === '' ? null : html`<p class="said no-print" role="status">${shape('well', 20)} ${this.said}</p>`}
      <dl>
        <dt>${sheet.shop}</dt>
        <dd>${words.collection(`${sheet.day} ${sheet.at}`)}</dd>
        <dt>${words.closedAt}</dt>
        <dd>${closed}</dd>
        <dt>${words.count}</dt>
        <dd><b data-sheet-count>${sheet.count}</b></dd>
        <dt>${words.totalMass}</dt>
        <dd><b data-sheet-mass>${shownMass(sheet.mass, view.unit, view.places, this.language)}</b></dd>
      </dl>
      <bf-data-table
        .language=${this.language}
        .name=${words.sheet}
        .file=${`sheet-${String(sheet.id)}`}
        .columns=${parcelColumns({ ...view, language: this.language, benches: this.benches })}
        .rows=${sheet.parcels}
        .keyOf=${(row: unknown) => String((row as { id: number }).id)}
      ></bf-data-table>
      <div class="signatures">
        <p>${words.handedBy}: <b>${sheet.closedBy ?? ''}</b></p>
        <p>${words.received}</p>
      </div>
    </article>`;
  }

  private print(bench: BenchRow): void {
    void this.attempt(async () => {
      const path = `/api/hand-over/sheets/${String(this.sheet.id)}/print`;
      const printed = await ask<PrintPreview>(path, sent({ bench: bench.id, language: this.language }));
      this.said = handOverWords[this.language].queued(printed.title);
    });
  }

  static override styles = [
    ...PageElement.styles,
    css`
      dl {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: 2px 16px;
        margin: 8px 0 12px;
      }
      dt {
        color: var(--walnut);
      }
      .signatures {
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: 40px;
        margin-top: 64px;
      }
      .signatures p {
        border-top: 2px solid var(--ink);
        padding-top: 4px;
      }
      .heading span {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hand-over-sheet': HandOverSheet;
  }
}
