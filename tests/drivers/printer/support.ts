import type { SlipData } from '#drivers/printer/documents/slip.ts';
import type { PaperSettings } from '#drivers/printer/encode.ts';

export const PAPER_80: PaperSettings = { paper: 80, columns: 48, dotsPerLine: 576, cutter: true };
export const PAPER_58: PaperSettings = { paper: 58, columns: 32, dotsPerLine: 384, cutter: false };

export const SLIP: SlipData = {
  language: 'en',
  shop: { name: 'Oddment & Thrum', address: ['14 Ropewalk Lane', 'Duluth, MN 55802'] },
  order: 'O-1047',
  orderCode: 'BFO-1047',
  buyer: ['Ada Fenn', '9 Larch Street', 'Nashville, TN 37201'],
  pieces: [
    { sku: 'WK-0031', title: 'Wool cardigan, moss green' },
    { sku: 'WK-0107', title: 'Corduroy work shirt with a very long title that needs a second line' },
  ],
  container: 'Pouch 10 x 13 in',
  service: 'Merrow Light',
  reading: '15.9 oz',
  margin: '0.1 oz below 16 oz',
  thanks: 'Thank you for giving these clothes another life.',
  returns: 'Returns within 30 days, in any parcel.',
};

export const WARNING: NonNullable<SlipData['warning']> = {
  verdict: 'close',
  ceiling: '16 oz',
  reading: '15.9 oz',
  toCome: '0.1 oz',
  uncertainty: '0.12 oz',
  choices: [
    { name: 'Zero and weigh again', cost: '$0.00' },
    { name: 'Pay the next bracket', cost: '$1.35' },
  ],
};
