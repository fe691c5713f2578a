import { css } from 'lit';

/** A part of a page that stands folded away until it is wanted, with a table of orders in it. */
export const foldedAwayStyles = css`
  :host {
    gap: 0;
  }
  details {
    margin-bottom: 18px;
  }
  summary {
    min-height: 44px;
    cursor: pointer;
  }
  summary .said {
    display: inline-flex;
  }
  .scroll {
    overflow-x: auto;
    max-height: 420px;
  }
  .line {
    display: block;
  }
  th.plain[scope='row'] {
    border-bottom: 1px solid var(--kraft);
    vertical-align: top;
  }
`;
