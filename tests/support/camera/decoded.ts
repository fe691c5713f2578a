import type { CodeRead } from '#shared/codes/camera-reads.ts';

/** What each decoder saw in one picture, and how long it took, in milliseconds. */
export type Decoded = Readonly<
  Record<'zxing' | 'quagga' | 'both', { readonly reads: readonly CodeRead[]; readonly took: number }>
>;
