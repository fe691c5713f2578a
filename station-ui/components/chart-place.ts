import type uPlot from 'uplot';
import { wearSheet } from '../theme/wear-sheet.ts';

/** Puts the charting library's own sheet into an element once; a page's sheet does not reach in there. */
export function wearChartSheet(root: HTMLElement | DocumentFragment, sheet: string): void {
  const around = root.getRootNode();
  if (around instanceof ShadowRoot) wearSheet(around, sheet);
}

/** Makes a chart as wide as its place in an element is now; `height` in px. */
export function fitChart(root: HTMLElement | DocumentFragment, chart: uPlot | null, height: number): void {
  const width = root.querySelector<HTMLElement>('.chart')?.clientWidth ?? 0;
  if (chart !== null && width > 0 && width !== chart.width) chart.setSize({ width, height });
}
