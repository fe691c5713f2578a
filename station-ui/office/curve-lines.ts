import { html } from 'lit';
import type { TemplateResult } from 'lit';

/** How the line of one service is drawn: with a dye, a stitch and a mark of its own, so that no two rest on colour alone. */
export interface CurveLine {
  readonly letter: string;
  readonly dye: 'indigo' | 'verdigris' | 'walnut' | 'ink';
  readonly stitch: readonly number[];
  /** path around the origin, at most 6 from it */
  readonly mark: string;
}

const DYES = ['indigo', 'verdigris', 'walnut', 'ink'] as const;
const STITCHES: readonly (readonly number[])[] = [[], [12, 6], [3, 4], [14, 5, 3, 5], [22, 5]];
const MARKS = [
  'M-5 0A5 5 0 1 0 5 0A5 5 0 1 0-5 0Z',
  'M-4.5-4.5H4.5V4.5H-4.5Z',
  'M0-6 5.8 4.6H-5.8Z',
  'M0 6 5.8-4.6H-5.8Z',
  'M-1.8-6H1.8V-1.8H6V1.8H1.8V6H-1.8V1.8H-6V-1.8H-1.8Z',
  'M-2-6H2V6H-2Z',
  'M-6-2H6V2H-6Z',
] as const;

/** The line of the service at a place among those that are offered. */
export function lineOf(place: number): CurveLine {
  return {
    letter: String.fromCharCode(65 + (place % 26)),
    dye: DYES[place % DYES.length] ?? 'ink',
    stitch: STITCHES[place % STITCHES.length] ?? [],
    mark: MARKS[place % MARKS.length] ?? MARKS[0],
  };
}

/** A sample of the line for a list of services; its letter and name stand beside it as words. */
export function lineSample({ dye, stitch, mark }: CurveLine): TemplateResult {
  return html`<svg width="46" height="14" viewBox="0 0 46 14" aria-hidden="true" style="flex:none">
    <path d="M0 7H46" fill="none" stroke="var(--${dye})" stroke-width="3" stroke-dasharray=${stitch.join(' ')} />
    <path d=${mark} transform="translate(23 7)" fill="var(--${dye})" stroke="var(--chalk)" />
  </svg>`;
}
