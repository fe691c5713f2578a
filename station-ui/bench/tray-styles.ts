import { css } from 'lit';

/** The drawer looks like nothing else on the bench: grey, ruled, small; nobody takes it for a part of the job. */
export const trayStyles = css`
  :host {
    display: contents;
    --tool: #e9ebee;
    --tool-ink: #16181d;
    --tool-line: #8b919b;
    font-size: 17px;
  }
  .tab {
    position: absolute;
    z-index: 3;
    right: 0;
    top: var(--tray-top, 120px);
    width: 44px;
    height: 250px;
    padding: 0;
    border: 2px solid var(--tool-line);
    border-right: 0;
    background: var(--tool);
    color: var(--tool-ink);
    cursor: pointer;
  }
  .tab span {
    writing-mode: vertical-rl;
    font-size: 20px;
    white-space: nowrap;
  }
  aside {
    position: absolute;
    z-index: 2;
    right: 44px;
    top: var(--drawer-top, 66px);
    bottom: 0;
    width: var(--drawer-width, 344px);
    padding: 12px 14px;
    overflow: auto;
    background: var(--tool);
    color: var(--tool-ink);
    border-left: 2px solid var(--tool-line);
    border-bottom: 2px solid var(--tool-line);
    color-scheme: light;
  }
  aside[hidden] {
    display: none;
  }
  header {
    display: flex;
    justify-content: space-between;
    align-items: center;
  }
  h2 {
    font-size: 20px;
  }
  fieldset {
    margin: 8px 0 0;
    padding: 4px 8px 8px;
    border: 1px solid var(--tool-line);
    min-width: 0;
  }
  legend {
    padding: 0 6px;
    font-weight: 700;
  }
  .row,
  .codes {
    display: flex;
    flex-wrap: wrap;
    gap: 6px;
    margin-top: 6px;
  }
  input {
    flex: 1;
    min-width: 0;
    font: inherit;
    padding: 8px;
    border: 1px solid var(--tool-line);
    background: #fff;
    color: var(--tool-ink);
  }
  aside button {
    min-height: 44px;
    padding: 4px 10px;
    border: 1px solid var(--tool-ink);
    background: #fff;
    cursor: pointer;
  }
  .problem {
    margin-top: 8px;
    padding: 8px;
    background: #fff;
    border: 2px solid var(--tool-ink);
    font-weight: 700;
  }
  figure {
    margin: 8px 0 0;
  }
  img {
    display: block;
    width: 100%;
    background: #fff;
    border: 1px solid var(--tool-line);
  }
  :focus-visible {
    outline-color: #16181d;
  }
`;
