import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type uPlot from 'uplot';
import { timeOf } from '#shared/people/learning-curve.ts';
import type { Language } from '#shared/words/language.ts';
import type { KindView } from '#shared/wire/people.ts';
import { practiceWords } from '../i18n/practice.ts';
import { fitChart, wearChartSheet } from './chart-place.ts';
import { watchTheme } from '../theme/watch-theme.ts';
import { base } from '../theme/styles.ts';

/** Seconds a piece, pack by pack, as dots, and the fitted power law through them; the numbers stand in the table beside it. */
@customElement('bf-learning-chart')
export class LearningChart extends LitElement {
  @property({ attribute: false }) kind!: KindView;
  @property({ attribute: false }) language: Language = 'en';
  @property({ type: Number }) height = 240;
  /** text on the axes, px */
  @property({ type: Number }) letter = 15;
  private chart: uPlot | null = null;
  private readonly watcher = typeof ResizeObserver === 'undefined' ? null : new ResizeObserver(() => this.fit());

  private stopWatching: (() => void) | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    this.stopWatching = watchTheme(() => void this.draw());
  }

  override disconnectedCallback(): void {
    this.stopWatching?.();
    this.watcher?.disconnect();
    this.chart?.destroy();
    this.chart = null;
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = practiceWords[this.language].progress;
    return html`<div
      class="chart"
      role="img"
      aria-label=${words.curveOf(this.kind.name[this.language])}
      data-chart="learning"
    ></div>`;
  }

  override updated(): void {
    void this.draw();
  }

  private async draw(): Promise<void> {
    const place = this.renderRoot.querySelector<HTMLElement>('.chart');
    if (place === null || place.clientWidth === 0) return;
    // Read when the first curve is drawn: a bench that only packs draws none.
    const [{ default: Chart }, sheet] = await Promise.all([import('uplot'), import('uplot/dist/uPlot.min.css?inline')]);
    if (!place.isConnected) return;
    wearChartSheet(this.renderRoot, sheet.default);
    const { times, curve } = this.kind;
    const words = practiceWords[this.language].progress;
    const dye = (name: string): string => getComputedStyle(this).getPropertyValue(`--${name}`).trim();
    const font = `${String(this.letter)}px ${getComputedStyle(this).fontFamily}`;
    const axis: uPlot.Axis = {
      stroke: dye('walnut'),
      grid: { stroke: dye('kraft'), width: 1 },
      ticks: { stroke: dye('walnut'), width: 1 },
      font,
      labelFont: font,
      labelSize: this.letter * 1.8,
      size: this.letter * 3.2,
    };
    // At the bench's letter size the heading says what the axes would.
    const label = (said: string) => (this.letter > 16 ? {} : { label: said });
    const counts = times.map((_, index) => index + 1);
    const fitted = counts.map((count) => (curve === null ? null : timeOf(curve, count)));
    const options: uPlot.Options = {
      width: place.clientWidth,
      height: this.height,
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: { time: false, range: [0.5, times.length + 0.5] },
        y: { range: (_, __, most) => [0, most * 1.1] },
      },
      axes: [
        { ...axis, ...label(words.pack), incrs: [1, 2, 5, 10, 20, 50, 100] },
        { ...axis, ...label(words.secondsAPiece) },
      ],
      series: [
        {},
        { stroke: dye('ink'), width: 0, paths: () => null, points: { show: true, size: 10, fill: dye('ink') } },
        { stroke: dye('indigo'), width: 3, dash: [12, 6], points: { show: false } },
      ],
    };
    this.chart?.destroy();
    place.replaceChildren();
    this.chart = new Chart(options, [counts, [...times], fitted], place);
    this.watcher?.disconnect();
    this.watcher?.observe(place);
  }

  private fit(): void {
    fitChart(this.renderRoot, this.chart, this.height);
  }

  static override styles = [
    base,
    css`
      :host {
        display: block;
        min-width: 0;
      }
      .chart {
        overflow: hidden;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-learning-chart': LearningChart;
  }
}
