import { css } from 'lit';

/** What the parts of the settings page share. */
export const settingsStyles = css`
  .problems {
    padding-left: 20px;
    list-style: square;
    max-width: 110ch;
    overflow-wrap: anywhere;
  }
  .problems li {
    padding: 3px 0;
  }
  .wrong,
  .refused {
    color: var(--madder);
    font-weight: 700;
  }
  .place {
    min-height: 32px;
    padding: 2px 8px;
    font-weight: 700;
  }
  .buttons {
    display: flex;
    flex-wrap: wrap;
    gap: 10px 14px;
    align-items: center;
  }
`;
