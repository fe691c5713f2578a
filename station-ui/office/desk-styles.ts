import { css } from 'lit';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';

/** What the parts of a bench's desk on the devices page look like. */
export const deskStyles = [
  base,
  officeStyles,
  css`
    h3 {
      margin: 14px 0 4px;
    }
    .tools {
      display: flex;
      flex-wrap: wrap;
      gap: 8px;
      align-items: center;
    }
    .jobs li {
      padding: 6px 0;
      border-bottom: 1px solid var(--thread);
    }
    .failure {
      color: var(--madder);
      font-weight: 700;
    }
  `,
];
