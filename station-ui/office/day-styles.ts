import { css } from 'lit';

/** The day at working density, and across a room. */
export const dayStyles = css`
  .collections,
  .benches {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 250px), 1fr));
    gap: 14px;
  }
  .collection,
  .bench {
    display: grid;
    gap: 4px;
    align-content: start;
    justify-items: start;
    padding: 12px 16px;
  }
  .collection {
    clip-path: polygon(0 0, calc(100% - 20px) 0, 100% 20px, 100% 100%, 0 100%);
    border-left: 8px solid transparent;
  }
  .collection[data-risk='tight'] {
    border-left: 8px dashed var(--walnut);
  }
  .collection[data-risk='late'],
  .collection[data-risk='missed'] {
    border-left: 8px solid var(--madder);
  }
  .bench {
    border-top: 3px dashed var(--thread);
    padding: 10px 0;
  }
  .collection button {
    margin-top: 6px;
  }
  .collection button[aria-pressed='true'] {
    background: var(--indigo);
    color: var(--on-indigo);
  }
  h2 {
    margin-bottom: 4px;
  }
  :host([wall]) {
    font-size: 26px;
    line-height: 1.25;
    gap: 24px;
  }
  :host([wall]) h1 {
    font-size: 46px;
  }
  :host([wall]) h3 {
    font-size: 34px;
    line-height: 1.1;
  }
  :host([wall]) .collections,
  :host([wall]) .benches {
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 380px), 1fr));
    gap: 22px;
  }
  :host([wall]) .shape {
    width: 32px;
    height: 32px;
  }
  .aside {
    display: grid;
    gap: 6px;
  }
`;
