import { css } from 'lit';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';

/** How the parts of the devices page look that show what a device sent, letter by letter. */
export const bytesStyles = [
  base,
  officeStyles,
  css`
    p {
      margin: 6px 0;
      max-width: 90ch;
    }
    .tools {
      display: flex;
      flex-wrap: wrap;
      gap: 8px 14px;
      align-items: center;
    }
    code,
    pre {
      font-family: ui-monospace, 'DejaVu Sans Mono', monospace;
      font-size: 14px;
      white-space: pre-wrap;
      overflow-wrap: anywhere;
    }
    pre {
      margin: 0;
      padding: 8px 12px;
      background: var(--kraft);
    }
    .failure {
      color: var(--madder);
      font-weight: 700;
    }
  `,
];
