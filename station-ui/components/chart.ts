import { LitElement, css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type uPlot from 'uplot';
import { csvText } from '#shared/words/csv.ts';
import type { Language } from '#shared/words/language.ts';
import { officeStyles } from '../office/office-styles.ts';
import { tableWords } from '../i18n/table.ts';
import { base } from '../theme/styles.ts';
import { fitChart, wearChartSheet } from './chart-place.ts';
import { saveFile } from './save-file.ts';

const HEIGHT = 260;

const DYES = ['indigo', 'madder', 'verdigris', 'walnut', 'ink'] as const;

/** Steps between the marks of an axis: 1, 2 and 5 of each power of ten from the finest one. */
export function stepsFrom(finest: number): number[] {
  return Array.from({ length: 8 }, (_, power) =>
    [1, 2, 5].map((each) => Number((each * finest * 10 ** power).toFixed(6))),
  ).flat();
}

/** A row of values over the chart's places: told apart by form and dash, not by dye alone. */
export interface ChartSeries {
  readonly name: string;
  readonly values: readonly (number | null)[];
  readonly as: 'bars' | 'line' | 'dashed' | 'dotted';
}

const DASHES: Readonly<Record<ChartSeries['as'], number[]>> = { bars: [], line: [], dashed: [8, 6], dotted: [2, 6] };

/** A chart over named places, such as days or kinds, with its table and its file. */
@customElement('bf-chart')
export class Chart extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @property() heading = '';
  /** what stands along the foot */
  @property() along = '';
  @property() file = 'chart';
  @property({ attribute: false }) places: readonly string[] = [];
  @property({ attribute: false }) series: readonly ChartSeries[] = [];
  @property({ attribute: false }) say: (value: number) => string = String;
  /** no two marks of the axis stand closer than what `say` can tell apart: 1 of what is counted, 0.01 of money */
  @property({ type: Number }) finest = 0;
  private chart: uPlot | null = null;
  private readonly resized = new ResizeObserver(() => this.fit());

  override disconnectedCallback(): void {
    this.resized.disconnect();
    this.chart?.destroy();
    this.chart = null;
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = tableWords[this.language];
    return html`<div class="head">
        <h3>${this.heading}</h3>
        <button type="button" class="no-print" data-chart-csv=${this.file} @click=${this.save}>${words.csv}</button>
      </div>
      <ul class="legend">
        ${this.series.map(({ name, as }) => html`<li><span class=${`mark ${as}`} aria-hidden="true"></span>${name}</li>`)}
      </ul>
      <div class="chart" role="img" aria-label=${this.heading} data-chart=${this.file}></div>
      <details>
        <summary>${words.asTable}</summary>
        <div class="scroll" tabindex="0" role="region" aria-label=${this.heading}>
          <table data-chart-table=${this.file}>
            <thead>
              <tr>
                <th class="plain" scope="col">${this.along}</th>
                ${this.series.map(({ name }) => html`<th class="plain number" scope="col">${name}</th>`)}
              </tr>
            </thead>
            <tbody>
              ${this.places.map(
                (place, index) =>
                  html`<tr>
                    <th class="plain" scope="row">${place}</th>
                    ${this.series.map(({ values }) => {
                      const value = values[index] ?? null;
                      return html`<td class="number">${value === null ? '' : this.say(value)}</td>`;
                    })}
                  </tr>`,
              )}
            </tbody>
          </table>
        </div>
      </details>`;
  }

  override updated(changed: PropertyValues<this>): void {
    if (changed.has('places') || changed.has('series') || changed.has('language')) void this.draw();
  }

  private async draw(): Promise<void> {
    const place = this.renderRoot.querySelector<HTMLElement>('.chart');
    if (place === null || this.places.length === 0) return;
    // Read when the first chart is drawn: most visits to the office draw none.
    const [{ default: Plot }, sheet] = await Promise.all([import('uplot'), import('uplot/dist/uPlot.min.css?inline')]);
    if (!place.isConnected) return;
    wearChartSheet(this.renderRoot, sheet.default);
    const dye = (name: string): string => getComputedStyle(this).getPropertyValue(`--${name}`).trim();
    const font = `14px ${getComputedStyle(this).fontFamily}`;
    const axis: uPlot.Axis = {
      stroke: dye('walnut'),
      ticks: { stroke: dye('walnut'), width: 1 },
      font,
      labelFont: font,
    };
    const { places, series, say } = this;
    const all = series.flatMap(({ values }) => values.filter((value) => value !== null));
    const [least, most] = [Math.min(0, ...all), Math.max(0, ...all)];
    const room = (most - least) * 0.08 || 1;
    const options: uPlot.Options = {
      width: place.clientWidth,
      height: HEIGHT,
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: { time: false, range: [-0.6, places.length - 0.4] },
        y: { range: [least === 0 ? 0 : least - room, most + room] },
      },
      axes: [
        {
          ...axis,
          grid: { show: false },
          splits: () => thinned(places.length, place.clientWidth),
          values: (_, splits) => splits.map((at) => places[at] ?? ''),
        },
        {
          ...axis,
          grid: { stroke: dye('kraft'), width: 1 },
          size: 78,
          ...(this.finest === 0 ? {} : { incrs: stepsFrom(this.finest) }),
          values: (_, splits) => splits.map((value) => say(value)),
        },
      ],
      series: [
        {},
        ...series.map(({ as }, index): uPlot.Series => {
          const stroke = dye(DYES[index % DYES.length] ?? 'ink');
          if (as === 'bars') {
            const bars = Plot.paths.bars?.({ size: [0.7, 56] });
            return { stroke, fill: stroke, points: { show: false }, ...(bars === undefined ? {} : { paths: bars }) };
          }
          return { stroke, width: 3, dash: DASHES[as], points: { show: places.length < 40 } };
        }),
      ],
    };
    this.chart?.destroy();
    place.replaceChildren();
    const values = series.map((each) => [...each.values]);
    this.chart = new Plot(options, [places.map((_, index) => index), ...values], place);
    this.resized.disconnect();
    this.resized.observe(place);
  }

  private fit(): void {
    fitChart(this.renderRoot, this.chart, HEIGHT);
  }

  private readonly save = (): void => {
    const rows = this.places.map((place, index) => [place, ...this.series.map(({ values }) => values[index] ?? null)]);
    saveFile(`${this.file}.csv`, csvText([this.along, ...this.series.map(({ name }) => name)], rows));
  };

  static override styles = [
    base,
    officeStyles,
    css`
      :host {
        display: block;
        break-inside: avoid;
      }
      .head {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 20px;
        align-items: center;
        justify-content: space-between;
      }
      .legend {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 20px;
      }
      .legend li {
        display: flex;
        gap: 8px;
        align-items: center;
      }
      .mark {
        width: 26px;
        height: 0;
        border-top: 4px solid var(--indigo);
      }
      .mark.bars {
        height: 14px;
        background: var(--indigo);
      }
      li:nth-child(2) .mark {
        border-color: var(--madder);
      }
      li:nth-child(3) .mark {
        border-color: var(--verdigris);
      }
      li:nth-child(4) .mark {
        border-color: var(--walnut);
      }
      li:nth-child(5) .mark {
        border-color: var(--ink);
      }
      .mark.dotted {
        border-top-style: dotted;
      }
      .mark.dashed {
        border-top-style: dashed;
      }
      .chart {
        min-height: ${HEIGHT}px;
        overflow: hidden;
      }
      summary {
        min-height: 40px;
        padding: 8px 0;
        cursor: pointer;
        color: var(--indigo);
      }
      .scroll {
        position: relative;
        overflow: auto;
        max-height: 320px;
      }
      tbody th {
        border-bottom: 1px solid var(--kraft);
        font-weight: 400;
      }
    `,
  ];
}

/** Every place where they fit, else every so many. */
function thinned(places: number, width: number): number[] {
  const every = Math.max(1, Math.ceil(places / Math.max(1, Math.floor(width / 90))));
  return Array.from({ length: Math.ceil(places / every) }, (_, index) => index * every);
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-chart': Chart;
  }
}
