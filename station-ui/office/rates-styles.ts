import { css } from 'lit';

/** What the parts of the page of prices share. */
export const ratesStyles = css`
  .fields {
    display: flex;
    flex-wrap: wrap;
    gap: 10px 20px;
    align-items: end;
  }
  .field {
    display: grid;
    gap: 2px;
  }
  .field > span,
  legend {
    color: var(--walnut);
  }
  input:not([type]),
  input[type='text'],
  input[type='date'],
  textarea,
  select {
    font: inherit;
    font-variant-numeric: tabular-nums slashed-zero;
    min-height: 44px;
    max-width: 100%;
    padding: 6px 10px;
    border: 2px solid var(--ink);
    border-radius: 0;
    background: var(--chalk);
    color: var(--ink);
  }
  fieldset {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 18px;
    margin: 0;
    padding: 0;
    border: 0;
  }
  legend {
    padding: 0;
  }
  fieldset label,
  .tick {
    display: inline-flex;
    gap: 8px;
    align-items: center;
    min-height: 40px;
  }
  input[type='radio'],
  input[type='checkbox'] {
    width: 20px;
    height: 20px;
    flex: none;
    accent-color: var(--indigo);
  }
  .scroll {
    overflow: auto;
    max-height: 60vh;
  }
  .scroll thead th {
    position: sticky;
    top: 0;
    background: var(--chalk);
    z-index: 1;
  }
  th[scope='row'] {
    font-weight: 700;
    border-bottom: 1px solid var(--kraft);
    padding: 6px 12px 6px 0;
    text-align: left;
    vertical-align: top;
    white-space: nowrap;
  }
  td.amount,
  th.amount {
    text-align: right;
    white-space: nowrap;
    padding-right: 14px;
  }
  .failure {
    color: var(--madder);
    font-weight: 700;
    white-space: pre-wrap;
  }
  .hint {
    color: var(--walnut);
    max-width: 80ch;
  }
  .said {
    margin-top: 8px;
  }
  h2 {
    margin-bottom: 8px;
  }
  h3 {
    margin: 14px 0 4px;
  }
`;
