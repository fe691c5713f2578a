import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { decimalsIn, quantitiesIn } from '#shared/units/decimal-mark.ts';
import { DECISIONS, REPORT_BY, type Decision, type ReportBy, type ReportSums } from '#shared/reports/report.ts';
import type { Report } from '#shared/wire/report.ts';
import '../components/chart.ts';
import type { ChartSeries } from '../components/chart.ts';
import '../components/data-table.ts';
import { moneyWords } from '../i18n/money.ts';
import { tableWords } from '../i18n/table.ts';
import { ask } from './api.ts';
import { amountOf, correctedColumns, groupColumns, perParcel } from './money-table.ts';
import { PageElement } from './page-element.ts';

const DRAWN: Readonly<Record<Decision, ChartSeries['as']>> = {
  'next-bracket': 'line',
  'as-is': 'dashed',
  lightened: 'dotted',
  'weighed-again': 'line',
};
const GRAMS_PER_OUNCE = 28.349523125;

/** What the parcels of a time cost, brought in and saved, and how well they were weighed and how quickly packed. */
@customElement('bf-money')
export class MoneyPage extends PageElement {
  @state() private report: Report | null = null;
  @state() private by: ReportBy = 'day';
  private from = '';
  private to = '';

  constructor() {
    super();
    this.readFirst(() => this.readReport());
  }

  private get asked(): string {
    const days = this.from === '' || this.to === '' ? {} : { from: this.from, to: this.to };
    return new URLSearchParams({ by: this.by, language: this.language, ...days }).toString();
  }

  private read(): void {
    void this.attempt(() => this.readReport());
  }

  private async readReport(): Promise<void> {
    this.report = await ask<Report>(`/api/report?${this.asked}`);
    ({ from: this.from, to: this.to } = this.report);
  }

  override render(): TemplateResult {
    const words = moneyWords[this.language];
    const { report } = this;
    return html`<div class="heading">
        <h2>${words.title}</h2>
        <span class="said no-print">
          <a class="button" href=${`/api/exports/report.csv?${this.asked}`} download data-report-csv
            >${tableWords[this.language].csv}</a
          >
          <button type="button" data-print-page @click=${() => window.print()}>
            ${tableWords[this.language].print}
          </button>
        </span>
      </div>
      <p class="hint no-print">${words.how}</p>
      <form class="tools" data-report-wish @submit=${this.wish}>
        <label><span>${words.from}</span> <input type="date" name="from" required .value=${this.from} /></label>
        <label><span>${words.to}</span> <input type="date" name="to" required .value=${this.to} /></label>
        <label
          ><span>${words.by}</span>
          <select name="by" data-by>
            ${REPORT_BY.map((by) => html`<option value=${by} ?selected=${by === this.by}>${words.sides[by]}</option>`)}
          </select></label
        >
        <button type="submit" class="main">${words.ask}</button>
      </form>
      ${this.alert()}
      ${
        report === null
          ? html`<p>${tableWords[this.language].loading}</p>`
          : report.sums.parcels === 0
            ? html`<p data-nothing>${words.nothing}</p>`
            : this.shown(report)
      }`;
  }

  private shown(report: Report): TemplateResult {
    const words = moneyWords[this.language];
    const { groups } = report;
    const places = groups.map(({ key, name }) => (report.by === 'day' ? key.slice(5) : name[this.language]));
    const amount = (value: number): string => amountOf(value * 100, report.currency, this.language);
    const chart = (
      which: 'postage' | 'saved' | 'close' | 'material' | 'time',
      series: readonly ChartSeries[],
      say: (value: number) => string,
      finest = 0.01,
    ): TemplateResult =>
      html`<bf-chart
        .language=${this.language}
        .heading=${words.charts[which]}
        .along=${words.sides[report.by]}
        .file=${`${which}-by-${report.by}`}
        .places=${places}
        .series=${series}
        .say=${say}
        .finest=${finest}
      ></bf-chart>`;
    const row = (
      name: string,
      as: ChartSeries['as'],
      value: (group: (typeof groups)[number]) => number | null,
    ): ChartSeries => ({ name, as, values: groups.map(value) });
    const saved = (way: 'ladder' | 'carton') => (group: ReportSums) =>
      group[way].parcels === 0 ? null : Math.round(group[way].saved) / 100;
    return html`${this.facts(report)}
      <div class="charts">
        ${chart(
          'postage',
          [
            row(words.series.postage, 'bars', ({ postage }) => postage / 100),
            row(words.series.paid, 'line', ({ paid }) => (paid.parcels === 0 ? null : paid.paid / 100)),
          ],
          amount,
        )}
        ${chart('saved', [row(words.series.ladder, 'bars', saved('ladder')), row(words.series.carton, 'line', saved('carton'))], amount)}
        ${chart('close', [row(words.series.close, 'bars', ({ close }) => close), ...DECISIONS.map((each) => row(words.decisions[each], DRAWN[each], ({ decisions }) => decisions[each]))], String, 1)}
        ${chart('material', [row(words.series.material, 'bars', (group) => Math.round(perParcel(group.material, group.parcels) ?? 0) / 100)], amount)}
        ${chart(
          'time',
          [
            row(words.series.time, 'bars', ({ seconds }) => {
              const each = perParcel(seconds.sum, seconds.parcels);
              return each === null ? null : Math.round(each / 6) / 10;
            }),
          ],
          (value) => words.minutes(decimalsIn(String(Math.round(value * 10) / 10), report.unit, this.language)),
          0.1,
        )}
        ${this.corrections(report)}
      </div>
      <section class="seamed">
        <h2>${words.table}</h2>
        <bf-data-table
          .language=${this.language}
          .name=${words.table}
          .file=${`report-by-${report.by}`}
          .columns=${groupColumns(report, this.language)}
          .rows=${groups}
          .keyOf=${(each: unknown) => (each as { key: string }).key}
        ></bf-data-table>
      </section>
      ${this.correctedTable(report)}`;
  }

  private facts({ sums, currency, unit }: Report): TemplateResult {
    const words = moneyWords[this.language];
    const amount = (minor: number): string => amountOf(minor, currency, this.language);
    const of = (count: number): string => words.ofParcels(count, sums.parcels);
    const material = perParcel(sums.material, sums.parcels);
    const seconds = perParcel(sums.seconds.sum, sums.seconds.parcels);
    const none = '–';
    const all: readonly (readonly [keyof typeof words.facts, string, string])[] = [
      ['parcels', String(sums.parcels), words.ofOrders(sums.orders)],
      ['postage', amount(sums.postage), ''],
      ['paid', sums.paid.parcels === 0 ? none : amount(sums.paid.paid), of(sums.paid.parcels)],
      [
        'difference',
        sums.paid.parcels === 0 ? none : amount(sums.paid.paid - sums.paid.postage),
        of(sums.paid.parcels),
      ],
      ['ladder', sums.ladder.parcels === 0 ? none : amount(sums.ladder.saved), of(sums.ladder.parcels)],
      ['carton', sums.carton.parcels === 0 ? none : amount(sums.carton.saved), of(sums.carton.parcels)],
      ['close', String(sums.close), ''],
      ['corrections', String(sums.corrections.parcels), words.dearer(sums.corrections.dearer)],
      ['material', material === null ? none : amount(material), ''],
      ['time', seconds === null ? none : words.minutes(decimalsIn((seconds / 60).toFixed(1), unit, this.language)), ''],
    ];
    return html`<dl class="facts">
      ${all.map(
        ([key, value, note]) =>
          html`<div data-fact=${key}>
            <dt>${words.facts[key]}</dt>
            <dd><b>${value}</b> ${note === '' ? null : html`<span class="secondary">${note}</span>`}</dd>
          </div>`,
      )}
    </dl>`;
  }

  private corrections(report: Report): TemplateResult {
    const words = moneyWords[this.language];
    const { corrected, unit } = report;
    if (corrected.length === 0) return html`<p data-no-corrections>${words.noCorrections}</p>`;
    const shown = unit === 'g' ? 1 : GRAMS_PER_OUNCE;
    const say = (value: number): string =>
      quantitiesIn(`${String(Math.round(value * 100) / 100)} ${unit === 'g' ? 'g' : 'oz'}`, this.language);
    return html`<bf-chart
      .language=${this.language}
      .heading=${words.charts.corrections}
      .along=${words.corrected.order}
      file="corrections"
      .places=${corrected.map(({ order, number }) => `${order}/${String(number)}`)}
      .series=${[
        {
          name: words.corrected.differs,
          as: 'bars',
          values: corrected.map(({ carriers, ours }) => Math.round(((carriers - ours) / shown) * 1000) / 1000),
        },
      ]}
      .say=${say}
    ></bf-chart>`;
  }

  private correctedTable(report: Report): TemplateResult | null {
    if (report.corrected.length === 0) return null;
    const words = moneyWords[this.language];
    return html`<section class="seamed">
      <h2>${words.correctedTable}</h2>
      <bf-data-table
        file="corrected"
        .language=${this.language}
        .name=${words.correctedTable}
        .columns=${correctedColumns(report, this.language)}
        .rows=${report.corrected}
        .keyOf=${(row: unknown) => {
          const { order, number } = row as { order: string; number: number };
          return `${order}/${String(number)}`;
        }}
      ></bf-data-table>
    </section>`;
  }

  private readonly wish = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = new FormData(event.target as HTMLFormElement);
    const said = (name: string): string => (form.get(name) as string | null) ?? '';
    this.from = said('from');
    this.to = said('to');
    this.by = REPORT_BY.find((each) => each === said('by')) ?? 'day';
    this.read();
  };

  static override styles = [
    ...PageElement.styles,
    css`
      .facts {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(100%, 220px), 1fr));
        gap: 10px 24px;
        margin: 0;
      }
      dt {
        color: var(--walnut);
      }
      dd b {
        font-size: 24px;
      }
      dd span {
        display: block;
      }
      .charts {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 520px), 1fr));
        gap: 24px 36px;
      }
      .charts > * {
        min-width: 0;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-money': MoneyPage;
  }
}
