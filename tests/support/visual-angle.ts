import type { Page } from 'playwright-core';

/** Millimetres of one CSS pixel on a screen of so many pixels and so many inches across. */
export function pixelMillimetres(width: number, height: number, inches: number): number {
  return (inches * 25.4) / Math.hypot(width, height);
}

/** Under how many minutes of arc a thing is seen, both lengths in millimetres. */
export function arcMinutes(height: number, distance: number): number {
  return ((2 * Math.atan(height / (2 * distance))) / Math.PI) * 180 * 60;
}

/** Height in CSS pixels of the capitals of the first element that fits, with the font that it is really set in. */
export function capitalHeight(page: Page, selector: string): Promise<number> {
  return page
    .locator(selector)
    .first()
    .evaluate((element) => {
      const style = (globalThis as unknown as InPage).getComputedStyle(element);
      const pen = (globalThis as unknown as InPage).document.createElement('canvas').getContext('2d');
      // Measured large: what is drawn small is told in whole pixels.
      pen.font = `${style.fontWeight} 1000px ${style.fontFamily}`;
      return (pen.measureText('H').actualBoundingBoxAscent / 1000) * Number.parseFloat(style.fontSize);
    });
}

/** What is used here of a page. */
interface InPage {
  readonly getComputedStyle: (element: unknown) => {
    readonly fontWeight: string;
    readonly fontSize: string;
    readonly fontFamily: string;
  };
  readonly document: {
    readonly createElement: (name: 'canvas') => {
      readonly getContext: (kind: '2d') => {
        font: string;
        readonly measureText: (text: string) => { readonly actualBoundingBoxAscent: number };
      };
    };
  };
}
