import { LitElement, css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type uPlot from 'uplot';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';
import type { PriceCurve, WhatIf } from '#shared/wire/rates.ts';
import { fitChart, wearChartSheet } from '../components/chart-place.ts';
import { shape } from '../components/shapes.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { watchTheme } from '../theme/watch-theme.ts';
import { drawCurves } from './curve-drawing.ts';
import { lineOf, lineSample } from './curve-lines.ts';
import { curvePoints, curveRows, nearCeilings } from './curve-points.ts';
import { officeStyles } from './office-styles.ts';
import { ratesStyles } from './rates-styles.ts';

const HEIGHT = 320;
/** So many of the cheapest are compared until somebody chooses. */
const AT_FIRST = 3;

/** Prices over mass, of several services side by side: stepped lines, a post at every ceiling, the parcel; and a table. */
@customElement('bf-rates-curve')
export class RatesCurve extends LitElement {
  @property({ attribute: false }) answer!: WhatIf;
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) words!: RatesWords;
  /** null: nobody chose yet */
  @state() private chosen: ReadonlySet<string> | null = null;
  @state() private whole = false;
  private chart: uPlot | null = null;
  private unwatch: (() => void) | null = null;
  private readonly resized = new ResizeObserver(() => this.fit());

  override connectedCallback(): void {
    super.connectedCallback();
    this.unwatch = watchTheme(() => void this.draw());
  }

  override disconnectedCallback(): void {
    this.unwatch?.();
    this.resized.disconnect();
    this.chart?.destroy();
    this.chart = null;
    super.disconnectedCallback();
  }

  /** The curves that are compared, with their places among all. */
  private get compared(): readonly { readonly curve: PriceCurve; readonly place: number }[] {
    const { curves, offers } = this.answer;
    const all = curves.map((curve, place) => ({ curve, place }));
    const { chosen } = this;
    if (chosen !== null) return all.filter(({ curve }) => chosen.has(curve.service));
    const cheapest = new Set(offers.slice(0, AT_FIRST).map(({ service }) => service));
    const first = all.filter(({ curve }) => cheapest.has(curve.service));
    return first.length === 0 ? all.slice(0, 1) : first;
  }

  override render(): TemplateResult | null {
    const { words, answer, compared } = this;
    if (answer.curves.length === 0) return null;
    const names = compared.map(({ curve }) => curve.name).join(', ');
    return html`<h3>${words.curve}</h3>
      <fieldset data-rates="curve-services">
        <legend>${words.curveServices}</legend>
        ${answer.curves.map((curve, place) => this.choice(curve, place))}
        <label class="tick whole"
          ><input type="checkbox" .checked=${this.whole} @change=${() => (this.whole = !this.whole)} />
          ${words.wholeList}</label
        >
      </fieldset>
      ${
        compared.length === 0
          ? html`<p>${words.curveNone}</p>`
          : html`<p class="hint">${words.curveHint}</p>
              <div class="both">
                <div class="chart" role="img" aria-label=${words.curveOf(names)} data-chart="price"></div>
                <div class="scroll" tabindex="0" role="region" aria-label=${words.curveOf(names)}>${this.table()}</div>
              </div>`
      }`;
  }

  private choice(curve: PriceCurve, place: number): TemplateResult {
    const line = lineOf(place);
    const on = this.compared.some((each) => each.place === place);
    return html`<label data-curve=${curve.service}
      ><input type="checkbox" .checked=${on} @change=${() => this.toggle(curve.service)} />
      <b>${line.letter}</b> ${lineSample(line)} ${curve.name}</label
    >`;
  }

  private table(): TemplateResult {
    const { words, compared, answer } = this;
    const several = compared.length > 1;
    return html`<table data-table="curve">
      <thead>
        <tr>
          <th class="plain" scope="col">${words.massUpTo}</th>
          ${compared.map(
            ({ curve, place }) =>
              html`<th class="plain amount" scope="col"><b>${lineOf(place).letter}</b> ${curve.name}</th>`,
          )}
        </tr>
      </thead>
      <tbody>
        ${curveRows(compared.map(({ curve }) => curve)).map(
          (row) =>
            html`<tr>
              <th scope="row">${quantitiesIn(row.label, this.language)}</th>
              ${row.prices.map(({ minor, from, cheapest }) =>
                minor === null
                  ? html`<td class="amount none">${words.refusedThere}</td>`
                  : html`<td class="amount" ?data-cheapest=${cheapest && several}>
                      ${cheapest && several ? html`${shape('well', 14)}<span class="only-read">${words.cheapest}</span>` : null}
                      ${from === null ? null : words.fromMass(from)}
                      ${formatMoney(money(minor, answer.currency), this.language)}
                    </td>`,
              )}
            </tr>`,
        )}
      </tbody>
    </table>`;
  }

  private toggle(service: string): void {
    const chosen = new Set(this.compared.map(({ curve }) => curve.service));
    if (!chosen.delete(service)) chosen.add(service);
    this.chosen = chosen;
  }

  override updated(changed: PropertyValues): void {
    if (changed.has('answer') && changed.get('answer') !== undefined) this.keepWhatIsThere();
    void this.draw();
  }

  /** Of another parcel the same services are compared, where any of them still takes it. */
  private keepWhatIsThere(): void {
    if (this.chosen !== null && this.compared.length === 0) this.chosen = null;
  }

  private async draw(): Promise<void> {
    const place = this.renderRoot.querySelector<HTMLElement>('.chart');
    if (place === null) return;
    // Read when the first curve is drawn: most visits to the office draw none.
    const [{ default: Chart }, sheet] = await Promise.all([import('uplot'), import('uplot/dist/uPlot.min.css?inline')]);
    const { answer, words, compared } = this;
    if (!place.isConnected || compared.length === 0) return;
    wearChartSheet(this.renderRoot, sheet.default);
    const curves = compared.map(({ curve }) => curve);
    const most = this.whole
      ? Math.max(...curves.map(({ steps }) => steps.at(-1)?.upTo ?? 0))
      : nearCeilings(curves, answer.mass);
    const style = getComputedStyle(this);
    this.chart?.destroy();
    place.replaceChildren();
    this.chart = drawCurves(Chart, place, {
      points: curvePoints(curves, most),
      lines: compared.map((each) => lineOf(each.place)),
      most,
      width: place.clientWidth,
      height: HEIGHT,
      mass: answer.mass,
      parcel: words.thisParcel(quantitiesIn(`${String(answer.mass)} ${answer.massUnit}`, this.language)),
      axes: [words.axisMass(answer.massUnit), words.axisPrice(answer.currency)],
      price: (units) => formatMoney(money(Math.round(units * 100), answer.currency), this.language),
      dye: (name) => style.getPropertyValue(`--${name}`).trim(),
      family: style.fontFamily,
    });
    this.resized.disconnect();
    this.resized.observe(place);
  }

  private fit(): void {
    fitChart(this.renderRoot, this.chart, HEIGHT);
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      h3 {
        margin-top: 16px;
      }
      fieldset .whole {
        margin-left: auto;
      }
      .both {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(220px, max-content);
        gap: 20px;
        margin-top: 8px;
      }
      .chart {
        min-height: 320px;
        overflow: hidden;
      }
      .both .scroll {
        max-height: 320px;
        max-width: 520px;
      }
      td.amount {
        font-variant-numeric: tabular-nums slashed-zero;
      }
      td[data-cheapest] {
        font-weight: 700;
      }
      td.none {
        color: var(--walnut);
      }
      th.amount {
        white-space: normal;
        vertical-align: bottom;
      }
      @media (max-width: 900px) {
        .both {
          grid-template-columns: minmax(0, 1fr);
        }
        .both .scroll {
          max-width: none;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rates-curve': RatesCurve;
  }
}
