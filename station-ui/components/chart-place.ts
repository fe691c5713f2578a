import type uPlot from 'uplot';

/** Puts the charting library's own sheet into an element once; a page's sheet does not reach in there. */
export function wearChartSheet(root: HTMLElement | DocumentFragment, sheet: string): void {
  if (root.querySelector('style[data-chart-sheet]') !== null) return;
  const style = document.createElement('style');
  style.dataset['chartSheet'] = '';
  style.textContent = sheet;
  root.append(style);
}

/** Makes a chart as wide as its place in an element is now; `height` in px. */
export function fitChart(root: HTMLElement | DocumentFragment, chart: uPlot | null, height: number): void {
  const width = root.querySelector<HTMLElement>('.chart')?.clientWidth ?? 0;
  if (chart !== null && width > 0 && width !== chart.width) chart.setSize({ width, height });
}
