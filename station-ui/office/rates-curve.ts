import { LitElement, css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type uPlot from 'uplot';
import { formatMoney, money } from '#shared/units/money.ts';
import type { PriceCurve, WhatIf } from '#shared/wire/rates.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { curvePoints, nearCeiling } from './curve-points.ts';
import type { CurvePoints } from './curve-points.ts';
import { officeStyles } from './office-styles.ts';
import { ratesStyles } from './rates-styles.ts';

const HEIGHT = 320;

/** The price of a service over mass: a stepped line, a post at every ceiling, the parcel itself; and the same as a table. */
@customElement('bf-rates-curve')
export class RatesCurve extends LitElement {
  @property({ attribute: false }) answer!: WhatIf;
  @property({ attribute: false }) words!: RatesWords;
  @state() private service: string | null = null;
  @state() private whole = false;
  private chart: uPlot | null = null;
  private readonly resized = new ResizeObserver(() => this.fit());

  override disconnectedCallback(): void {
    this.resized.disconnect();
    this.chart?.destroy();
    this.chart = null;
    super.disconnectedCallback();
  }

  private get curve(): PriceCurve | undefined {
    const { curves, offers } = this.answer;
    const wanted = this.service ?? offers[0]?.service;
    return curves.find((each) => each.service === wanted) ?? curves[0];
  }

  override render(): TemplateResult | null {
    const { words, answer, curve } = this;
    if (curve === undefined) return null;
    return html`<div class="fields">
        <h3>${words.curve}</h3>
        <label class="field"
          ><span>${words.service}</span>
          <select
            data-rates="curve-service"
            @change=${(event: Event) => (this.service = (event.target as HTMLSelectElement).value)}
          >
            ${answer.curves.map(
              (each) => html`<option value=${each.service} ?selected=${each === curve}>${each.name}</option>`,
            )}
          </select></label
        >
        <label class="tick"
          ><input type="checkbox" .checked=${this.whole} @change=${() => (this.whole = !this.whole)} />
          ${words.wholeList}</label
        >
      </div>
      <p class="hint">${words.curveHint}</p>
      <div class="both">
        <div class="chart" role="img" aria-label=${words.curveOf(curve.name)} data-chart="price"></div>
        <div class="scroll" tabindex="0" role="region" aria-label=${words.curveOf(curve.name)}>
          <table data-table="curve">
            <thead>
              <tr>
                <th class="plain" scope="col">${words.massUpTo}</th>
                <th class="plain amount" scope="col">${words.price}</th>
              </tr>
            </thead>
            <tbody>
              ${curve.steps.map(
                (step) =>
                  html`<tr>
                    <th scope="row">${step.label}</th>
                    <td class="amount">${formatMoney(money(step.minor, answer.currency))}</td>
                  </tr>`,
              )}
            </tbody>
          </table>
        </div>
      </div>`;
  }

  override updated(changed: PropertyValues): void {
    if (changed.has('answer')) this.service = null;
    void this.draw();
  }

  private async draw(): Promise<void> {
    const place = this.renderRoot.querySelector<HTMLElement>('.chart');
    const { curve, answer, words } = this;
    if (place === null || curve === undefined) return;
    // Read when the first curve is drawn: most visits to the office draw none.
    const [{ default: Chart }, sheet] = await Promise.all([import('uplot'), import('uplot/dist/uPlot.min.css?inline')]);
    if (!place.isConnected) return;
    this.wear(sheet.default);
    const most = this.whole ? (curve.steps.at(-1)?.upTo ?? 0) : nearCeiling(curve, answer.mass);
    const points = curvePoints(curve, most);
    const dye = (name: string): string => getComputedStyle(this).getPropertyValue(`--${name}`).trim();
    const axis: uPlot.Axis = {
      stroke: dye('walnut'),
      grid: { stroke: dye('kraft'), width: 1 },
      ticks: { stroke: dye('walnut'), width: 1 },
      font: `15px ${getComputedStyle(this).fontFamily}`,
      labelFont: `15px ${getComputedStyle(this).fontFamily}`,
    };
    const options: uPlot.Options = {
      width: place.clientWidth,
      height: HEIGHT,
      legend: { show: false },
      cursor: { show: false },
      scales: { x: { time: false, range: [0, most * 1.02] }, y: { range: (_, __, top) => [0, top * 1.15] } },
      axes: [
        { ...axis, label: words.axisMass(answer.massUnit) },
        {
          ...axis,
          label: words.axisPrice(answer.currency),
          size: 64,
          values: (_, ticks) => ticks.map((tick) => formatMoney(money(Math.round(tick * 100), answer.currency))),
        },
      ],
      series: [
        {},
        {
          stroke: dye('indigo'),
          width: 3,
          points: { show: false },
          ...(Chart.paths.stepped === undefined ? {} : { paths: Chart.paths.stepped({ align: -1 }) }),
        },
      ],
      hooks: { draw: [(chart) => this.posts(chart, points, dye)] },
    };
    this.chart?.destroy();
    place.replaceChildren();
    this.chart = new Chart(options, [[...points.masses], [...points.prices]], place);
    this.resized.disconnect();
    this.resized.observe(place);
  }

  private wear(sheet: string): void {
    if (this.renderRoot.querySelector('style[data-chart]') !== null) return;
    const style = document.createElement('style');
    style.dataset['chart'] = '';
    style.textContent = sheet;
    this.renderRoot.append(style);
  }

  /** A madder post at each ceiling, up to the price that ends there; a diamond where the parcel is. */
  private posts(chart: uPlot, { ceilings, masses, prices }: CurvePoints, dye: (name: string) => string): void {
    const { ctx } = chart;
    const x = (mass: number): number => chart.valToPos(mass, 'x', true);
    const y = (price: number): number => chart.valToPos(price, 'y', true);
    const scale = window.devicePixelRatio;
    ctx.save();
    ctx.strokeStyle = dye('madder');
    ctx.fillStyle = dye('madder');
    ctx.lineWidth = 2 * scale;
    for (const ceiling of ceilings) {
      const price = prices[masses.indexOf(ceiling)] ?? 0;
      const top = y(price) - 7 * scale;
      ctx.beginPath();
      ctx.moveTo(x(ceiling), y(0));
      ctx.lineTo(x(ceiling), top);
      ctx.stroke();
      ctx.fillRect(x(ceiling) - 3.5 * scale, top, 7 * scale, 4 * scale);
    }
    const { mass } = this.answer;
    const at = masses.findIndex((each) => mass <= each);
    if (at !== -1) {
      const [left, top, size] = [x(mass), y(prices[at] ?? 0), 9 * scale];
      ctx.fillStyle = dye('ink');
      ctx.beginPath();
      ctx.moveTo(left, top - size);
      ctx.lineTo(left + size, top);
      ctx.lineTo(left, top + size);
      ctx.lineTo(left - size, top);
      ctx.fill();
      ctx.font = `${15 * scale}px ${getComputedStyle(this).fontFamily}`;
      const text = this.words.thisParcel(`${String(mass)} ${this.answer.massUnit}`);
      const room = chart.bbox.left + chart.bbox.width - left;
      ctx.textAlign = ctx.measureText(text).width + size * 2 < room ? 'left' : 'right';
      ctx.fillText(text, left + (ctx.textAlign === 'left' ? size * 1.4 : -size * 1.4), top - size * 1.2);
    }
    ctx.restore();
  }

  private fit(): void {
    const width = this.renderRoot.querySelector<HTMLElement>('.chart')?.clientWidth ?? 0;
    if (this.chart !== null && width > 0 && width !== this.chart.width) this.chart.setSize({ width, height: HEIGHT });
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      .fields {
        margin-top: 16px;
      }
      .both {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(220px, 300px);
        gap: 20px;
        margin-top: 8px;
      }
      .chart {
        min-height: 320px;
        overflow: hidden;
      }
      .both .scroll {
        max-height: 320px;
      }
      @media (max-width: 900px) {
        .both {
          grid-template-columns: minmax(0, 1fr);
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
