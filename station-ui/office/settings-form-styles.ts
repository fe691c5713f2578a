import { css } from 'lit';

/** The fields of an entry, and rows of them. */
export const settingsFormStyles = css`
  .fields {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(240px, 100%), 1fr));
    gap: 12px 20px;
    align-items: start;
  }
  label:not(.check) {
    display: grid;
    gap: 2px;
    align-content: start;
  }
  .wide {
    grid-column: 1 / -1;
  }
  fieldset {
    border: 0;
    border-left: 3px dashed var(--thread);
    padding: 4px 0 4px 14px;
    margin: 0;
    min-width: 0;
  }
  legend {
    font-weight: 700;
    padding: 0;
  }
  small {
    color: var(--walnut);
    font-size: 14px;
  }
  input:not([type='checkbox']),
  textarea,
  select {
    font: inherit;
    width: 100%;
    min-height: 44px;
    padding: 6px 10px;
    border: 2px solid var(--ink);
    border-radius: 0;
    background: var(--chalk);
    color: var(--ink);
  }
  textarea {
    font-family: ui-monospace, monospace;
    font-size: 15px;
  }
  input[aria-invalid='true'],
  textarea[aria-invalid='true'],
  select[aria-invalid='true'] {
    border: 3px dashed var(--madder);
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: 6px 14px;
    align-items: start;
    padding: 8px 0;
    border-bottom: 1px dashed var(--thread);
  }
  .row-fields {
    flex: 1 1 300px;
    min-width: 0;
  }
  .row-key {
    flex: 0 1 180px;
  }
  .row-fields > .fields {
    grid-template-columns: repeat(auto-fill, minmax(min(150px, 100%), 1fr));
  }
  .row-buttons {
    display: flex;
    flex-wrap: wrap;
    gap: 6px;
    padding-top: 22px;
  }
  .row-fields:has(> details) + .row-buttons {
    padding-top: 0;
  }
  .row-fields:has(> details[open]) {
    flex-basis: 100%;
  }
  @media (min-width: 900px) {
    .row-fields > .fields > .prices {
      grid-column: span 4;
    }
  }
  /* Said once for all rows. */
  .row ~ .row small {
    display: none;
  }
  summary {
    cursor: pointer;
    min-height: 44px;
    padding: 10px 0;
    overflow-wrap: anywhere;
  }
  .checks {
    display: flex;
    flex-wrap: wrap;
    gap: 2px 20px;
  }
  .check {
    display: inline-flex;
    gap: 8px;
    align-items: center;
    min-height: 44px;
  }
  .check input {
    width: 22px;
    height: 22px;
  }
`;
