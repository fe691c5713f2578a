import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PrintPreview } from '#shared/wire/devices.ts';
import type { HandOverView, SheetRow } from '#shared/wire/hand-over.ts';
import type { BenchRow } from '#shared/wire/office.ts';
import '../components/data-table.ts';
import { shape } from '../components/shapes.ts';
import { columnsOf } from '../components/table-rows.ts';
import { handOverWords } from '../i18n/hand-over.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask } from './api.ts';
import { shownMass } from './hand-over-table.ts';
import { PageElement, sent } from './page-element.ts';

/** The sheets of earlier collections, and the cards that open a sack at a bench. */
@customElement('bf-hand-over-past')
export class HandOverPast extends PageElement {
  @property({ attribute: false }) view!: HandOverView;
  @property({ attribute: false }) benches: readonly BenchRow[] = [];
  @state() private said = '';

  override render(): TemplateResult {
    const words = handOverWords[this.language];
    const { view } = this;
    return html`<div class="heading">
        <h2>${words.sheets}</h2>
        <span class="said">
          <a class="button" href="/api/exports/shipments.csv" download data-export="shipments">${words.shipments}</a>
          ${this.benches.map(
            (bench) =>
              html`<button type="button" data-cards=${bench.id} @click=${() => this.cards(bench)}>
                ${words.printCards(bench.name)}
              </button>`,
          )}
        </span>
      </div>
      ${this.alert()}
      ${this.said === '' ? null : html`<p class="said" role="status">${shape('well', 20)} ${this.said}</p>`}
      ${
        view.sheets.length === 0
          ? html`<p>${words.noSheets}</p>`
          : html`<bf-data-table
              file="hand-over"
              .language=${this.language}
              .name=${words.sheets}
              .rows=${view.sheets}
              .keyOf=${(row: unknown) => String((row as SheetRow).id)}
              .columns=${this.columns()}
            ></bf-data-table>`
      }`;
  }

  private columns() {
    const words = handOverWords[this.language];
    const { view } = this;
    const clock = { now: new Date(view.now), timeZone: view.timeZone };
    return columnsOf<SheetRow>([
      { key: 'carrier', title: words.columns.carrier, value: (row) => row.name[this.language] },
      { key: 'day', title: words.day, value: (row) => `${row.day} ${row.at}` },
      {
        key: 'closedAt',
        title: words.closedAt,
        value: (row) => new Date(row.closedAt).toISOString(),
        cell: (row) => dayAndTime(new Date(row.closedAt).toISOString(), this.language, clock),
      },
      { key: 'by', title: words.by, value: (row) => row.closedBy ?? '' },
      { key: 'count', title: words.count, number: true, value: (row) => row.count },
      {
        key: 'mass',
        title: words.totalMass,
        number: true,
        value: (row) => shownMass(row.mass, view.unit, view.places, this.language),
      },
      {
        key: 'open',
        title: '',
        value: () => '',
        cell: (row) =>
          html`<button type="button" data-open-sheet=${row.id} @click=${() => this.open(row.id)}>
            ${words.look}<span class="only-read"> ${row.day} ${row.at}</span>
          </button>`,
      },
    ]);
  }

  private open(id: number): void {
    this.dispatchEvent(new CustomEvent('bf-open-sheet', { detail: id }));
  }

  private cards(bench: BenchRow): void {
    void this.attempt(async () => {
      const wish = { bench: bench.id, language: this.language };
      const { title } = await ask<PrintPreview>('/api/hand-over-cards', sent(wish));
      this.said = handOverWords[this.language].queued(title);
    });
  }

  static override styles = [
    ...PageElement.styles,
    css`
      .heading .said {
        flex-wrap: wrap;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hand-over-past': HandOverPast;
  }
}
