import { css } from 'lit';

/** Tags, stitches and dyes at working density. */
export const officeStyles = css`
  :host {
    display: block;
    font-size: 16px;
    line-height: 1.35;
  }
  h2 {
    font-size: 21px;
    line-height: 1.2;
  }
  h3 {
    font-size: 17px;
  }
  table {
    border-collapse: collapse;
    width: 100%;
  }
  th {
    text-align: left;
    vertical-align: bottom;
    padding: 0;
    border-bottom: 3px dashed var(--thread);
  }
  th.plain,
  td {
    padding: 6px 12px 6px 0;
  }
  td {
    border-bottom: 1px solid var(--kraft);
    vertical-align: top;
  }
  .number {
    text-align: right;
    padding-right: 24px;
  }
  button,
  .button {
    display: inline-flex;
    align-items: center;
    min-height: 44px;
    padding: 6px 16px;
    border: 2px solid var(--ink);
    background: var(--chalk);
    color: var(--ink);
    text-decoration: none;
    cursor: pointer;
  }
  button:disabled {
    border-style: dashed;
    color: var(--walnut);
    cursor: default;
  }
  .main {
    background: var(--indigo);
    border-color: var(--indigo);
    color: var(--on-indigo);
    font-weight: 700;
  }
  .main:disabled {
    background: var(--chalk);
    border-color: var(--walnut);
  }
  input[type='search'],
  select {
    font: inherit;
    min-height: 44px;
    padding: 6px 10px;
    border: 2px solid var(--ink);
    background: var(--chalk);
    color: var(--ink);
  }
  :focus-visible {
    outline-width: 3px;
    outline-offset: 2px;
  }
  @media print {
    .no-print,
    .tools {
      display: none !important;
    }
  }
  .said {
    display: flex;
    gap: 10px;
    align-items: center;
  }
`;
