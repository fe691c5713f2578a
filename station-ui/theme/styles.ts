import { css } from 'lit';

/** Worn by every element: box model, focus, the stitched line, the kraft ground with its deeper dyes. */
export const base = css`
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  :host([hidden]) {
    display: none;
  }
  h1,
  h2,
  h3,
  p,
  ul,
  ol,
  dl,
  dd {
    margin: 0;
    padding: 0;
  }
  ul,
  ol {
    list-style: none;
  }
  button {
    font: inherit;
    color: inherit;
  }
  :focus-visible {
    outline: 4px solid var(--indigo);
    outline-offset: 3px;
  }
  .secondary {
    color: var(--walnut);
  }
  .kraft {
    background: var(--kraft);
    --walnut: var(--walnut-deep);
    --verdigris: var(--verdigris-deep);
    --madder: var(--madder-deep);
  }
  .only-read {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  /* What is only read scrolls with the words around it, and makes no page wider. */
  .scroll {
    position: relative;
  }
`;

/** Sizes of the bench: instruction 58-72 px, secondary from 27 px, small from 20 px; less only on a 7-inch tablet. */
export const benchType = css`
  .instruction {
    overflow-wrap: anywhere;
    font-size: var(--size-instruction, 62px);
    line-height: 1.05;
    font-weight: 700;
    text-wrap: balance;
    letter-spacing: -0.01em;
  }
  .instruction.long {
    font-size: var(--size-instruction-long, 58px);
  }
  .say {
    font-size: var(--size-say, 28px);
    line-height: 1.2;
  }
  .small {
    font-size: var(--size-small, 22px);
    line-height: 1.25;
  }
`;

/** Ink stripes on weld: attention, wherever it appears. */
export const striped = css`
  .striped {
    color: var(--on-weld);
    background: repeating-linear-gradient(-45deg, var(--weld) 0 18px, var(--weld-pale) 18px 36px);
    border: 4px solid var(--on-weld);
    outline: 2px solid var(--weld);
    outline-offset: 0;
  }
`;
