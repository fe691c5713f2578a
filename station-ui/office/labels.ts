import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import {
  LABEL_STATES,
  type CustomsRow,
  type LabelRow,
  type LabelState,
  type LabelsView,
  type NumbersTaken,
} from '#shared/wire/label.ts';
import { gapsInWords } from '../bench/customs-gaps.ts';
import '../components/data-table.ts';
import { shape, type Standing } from '../components/shapes.ts';
import { columnsOf } from '../components/table-rows.ts';
import { ReadAgain } from '../components/read-again.ts';
import { officeLabelWords } from '../i18n/office-labels.ts';
import { tableWords } from '../i18n/table.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';

const LOOK_AGAIN_MS = 3000;
/** The whole answer goes into the file. */
const MOST_SHOWN = 160;
const STANDING: Readonly<Record<LabelState, Standing>> = {
  held: 'attention',
  waiting: 'current',
  answered: 'well',
  dead: 'stop',
  withdrawn: 'waiting',
  unused: 'attention',
};
const SENDABLE: readonly LabelState[] = ['dead', 'held', 'waiting'];

/** Labels that come from outside: what was asked for, what waits and what was given up; facts for the customs; the files. */
@customElement('bf-labels')
export class Labels extends PageElement {
  @state() private view: LabelsView | null = null;
  @state() private taken: NumbersTaken | null = null;

  constructor() {
    super();
    new ReadAgain(this, LOOK_AGAIN_MS, () => void this.look());
  }

  private async look(): Promise<void> {
    // A refusal that is shown stays until something else is done.
    if (this.failure !== '' && this.view !== null) return;
    await this.attempt(async () => {
      this.view = await ask<LabelsView>('/api/labels');
    });
  }

  override render(): TemplateResult {
    const words = officeLabelWords[this.language];
    const { view } = this;
    if (view === null)
      return html`${this.alert()}
        <p>${tableWords[this.language].loading}</p>`;
    return html`<h2>${words.title}</h2>
      ${this.where(view)} ${this.alert()} ${this.customs(view)} ${this.counts(view)}
      <section class="list" data-labels=${view.rows.length}>
        <h3>${words.list}</h3>
        ${
          view.rows.length === 0
            ? html`<p>${words.none}</p>`
            : html`<bf-data-table
                file="labels"
                .language=${this.language}
                .name=${words.list}
                .columns=${this.columns(view)}
                .rows=${view.rows}
                .keyOf=${(row: unknown) => (row as LabelRow).key}
              ></bf-data-table>`
        }
      </section>
      ${this.files()}`;
  }

  private where({ to, url, trouble }: LabelsView): TemplateResult {
    const words = officeLabelWords[this.language];
    return html`<p class="said where" data-to=${to}>
        <span class="hint">${words.to[to](url ?? '')}</span>
        ${
          to === 'receiver'
            ? null
            : html`<button type="button" data-stand-in @click=${() => this.standIn(to === 'none')}>
                ${to === 'none' ? words.tryIt : words.stopTrying}
              </button>`
        }
      </p>
      ${
        trouble === null
          ? null
          : html`<p class="said failure" role="alert" data-trouble>${shape('stop', 22)} ${words.trouble(trouble)}</p>`
      }`;
  }

  private customs({ customs }: LabelsView): TemplateResult | null {
    const words = officeLabelWords[this.language];
    if (customs.length === 0) return null;
    return html`<section data-customs=${customs.length}>
      <h3 class="said">${shape('attention', 24)} ${words.customs(customs.length)}</h3>
      <p class="hint">${words.customsHow}</p>
      <bf-data-table
        plain
        .language=${this.language}
        .name=${words.customs(customs.length)}
        .columns=${columnsOf<CustomsRow>([
          { key: 'order', title: words.columns.order, value: (row) => row.order },
          { key: 'country', title: words.country, value: (row) => row.country },
          { key: 'missing', title: words.missing, value: (row) => gapsInWords(row.gaps, this.language).join('; ') },
        ])}
        .rows=${customs}
        .keyOf=${(row: unknown) => (row as CustomsRow).order}
      ></bf-data-table>
    </section>`;
  }

  /** What needs somebody, each with what to do about it. */
  private counts({ counts }: LabelsView): TemplateResult {
    const words = officeLabelWords[this.language];
    const shown = LABEL_STATES.filter((each) => counts[each] > 0);
    return html`<ul class="counts">
      ${shown.map(
        (each) =>
          html`<li data-count=${each}>
            <span class="said">${shape(STANDING[each], 22)} <b>${counts[each]} ${words.states[each]}</b></span>
            ${words.stateHow[each] === undefined ? null : html`<span class="hint">${words.stateHow[each]}</span>`}
          </li>`,
      )}
    </ul>`;
  }

  private columns(view: LabelsView) {
    const words = officeLabelWords[this.language];
    const clock = { now: new Date(view.now), timeZone: view.timeZone };
    const time = (at: number) => dayAndTime(new Date(at).toISOString(), this.language, clock);
    // What was answered well is in the other columns.
    const why = (row: LabelRow) =>
      row.state === 'answered'
        ? (words.whys[row.why] ?? '')
        : [words.whys[row.why] ?? row.why, row.answer].filter((each) => each !== '').join(': ');
    return columnsOf<LabelRow>([
      { key: 'order', title: words.columns.order, value: (row) => words.parcelOf(row.order, row.number, row.of) },
      {
        key: 'state',
        title: words.columns.state,
        value: (row) => words.states[row.state],
        cell: (row) =>
          html`<span class="said" data-state=${row.state}
            >${shape(STANDING[row.state], 20)} ${words.states[row.state]}</span
          >`,
      },
      { key: 'do', title: '', value: () => '', cell: (row) => this.buttons(row) },
      { key: 'service', title: words.columns.service, value: (row) => row.service[this.language] },
      { key: 'tracking', title: words.columns.tracking, value: (row) => row.tracking ?? '' },
      { key: 'paper', title: words.columns.paper, value: (row) => words.papers[row.paper] },
      { key: 'attempts', title: words.columns.attempts, number: true, value: (row) => row.attempts },
      {
        key: 'when',
        title: words.columns.when,
        value: (row) => new Date(row.triedAt ?? row.madeAt).toISOString(),
        cell: (row) =>
          html`${row.triedAt === null ? time(row.madeAt) : words.lastTry(time(row.triedAt))}
          ${row.nextAt === null || row.attempts === 0 ? null : html`<br />${words.nextTry(time(row.nextAt))}`}`,
      },
      {
        key: 'answer',
        title: words.columns.answer,
        value: why,
        cell: (row) => html`<span style="overflow-wrap:anywhere">${why(row).slice(0, MOST_SHOWN)}</span>`,
      },
    ]);
  }

  private buttons(row: LabelRow): TemplateResult {
    const words = officeLabelWords[this.language];
    const named = html`<span class="only-read"> ${row.order}</span>`;
    const shown = row.label === 'pdf' || row.label === 'png';
    return html`<span class="said">
      ${
        SENDABLE.includes(row.state)
          ? html`<button type="button" data-send-again=${row.key} @click=${() => this.sendAgain(row)}>
              ${words.sendAgain}${named}
            </button>`
          : null
      }
      ${
        shown
          ? html`<a
              class="button"
              target="_blank"
              rel="noopener"
              href=${`/api/labels/document?key=${encodeURIComponent(row.key)}`}
              >${words.open}${named}</a
            >`
          : null
      }
      ${
        row.label === null || row.paper === 'none'
          ? null
          : html`<button type="button" data-print-again=${row.key} @click=${() => this.printAgain(row)}>
              ${words.printAgain}${named}
            </button>`
      }
    </span>`;
  }

  private files(): TemplateResult {
    const words = officeLabelWords[this.language];
    const { taken } = this;
    return html`<section class="seamed">
      <h3>${words.file}</h3>
      <p class="hint">${words.fileHow}</p>
      <p class="tools">
        <a class="button" href="/api/exports/shipments.csv" download data-export="shipments">${words.shipments}</a>
        <label class="button">
          ${words.chooseNumbers}
          <input class="only-read" type="file" accept=".csv,.tsv,.txt,text/csv" data-numbers @change=${this.chosen} />
        </label>
      </p>
      ${
        taken === null
          ? null
          : html`<div role="status" data-taken=${taken.stored}>
              <p class="said">
                ${shape(taken.stored ? 'well' : 'stop', 22)}
                <b>${taken.stored ? words.stored(taken.numbers) : words.refused(taken.refused.length)}</b>
              </p>
              <ul>
                ${taken.refused.map((each) => html`<li>${words.line(each.line, each.column, each.expected, each.found)}</li>`)}
              </ul>
            </div>`
      }
    </section>`;
  }

  private readonly chosen = (event: Event): void => {
    const field = event.target as HTMLInputElement;
    const file = field.files?.[0];
    if (file === undefined) return;
    this.taken = null;
    void this.attempt(async () => {
      const headers = { 'content-type': 'application/octet-stream' };
      this.taken = await ask<NumbersTaken>('/api/labels/numbers', { method: 'POST', headers, body: file });
    }).then(() => {
      field.value = '';
      return this.look();
    });
  };

  private standIn(on: boolean): void {
    void this.attempt(async () => {
      this.view = await ask<LabelsView>('/api/labels/stand-in', sent({ on }));
    });
  }

  private sendAgain({ key }: LabelRow): void {
    void this.attempt(async () => {
      this.view = await ask<LabelsView>('/api/labels/send-again', sent({ key }));
    });
  }

  private printAgain({ key }: LabelRow): void {
    void this.attempt(async () => {
      await ask('/api/labels/print-again', sent({ key }));
    }).then((done) => (done ? this.look() : undefined));
  }

  static override styles = [
    ...PageElement.styles,
    css`
      .where {
        flex-wrap: wrap;
      }
      .counts {
        list-style: none;
        padding: 0;
        margin: 0;
        display: flex;
        flex-wrap: wrap;
        gap: 8px 32px;
      }
      .counts li {
        display: grid;
      }
      label.button:focus-within {
        outline: 3px solid var(--indigo);
        outline-offset: 2px;
      }
      section {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 10px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-labels': Labels;
  }
}
