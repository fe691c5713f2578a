import { css } from 'lit';

/** The look of the page where sacks are loaded. */
export const handOverStyles = css`
  .sacks {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 280px), 1fr));
    gap: 18px;
  }
  .sack {
    display: grid;
    gap: 4px;
    align-content: start;
    justify-items: start;
    padding: 14px 18px;
    border-left: 8px solid transparent;
    clip-path: polygon(0 0, calc(100% - 22px) 0, 100% 22px, 100% 100%, 0 100%);
  }
  .sack.chosen {
    border-left: 8px dashed var(--indigo);
  }
  .scanning {
    margin-bottom: 12px;
  }
  .code {
    flex: 1 1 320px;
    max-width: 620px;
  }
  .verdict {
    font-size: 24px;
    line-height: 1.2;
    padding: 10px 0;
  }
  .loud {
    padding: 16px 18px;
    border: 5px solid var(--madder);
    font-size: 30px;
  }
  .overdue {
    padding: 12px 18px;
    border: 3px dashed var(--madder);
  }
  .closing {
    margin-top: 14px;
  }
  h3 {
    margin: 8px 0 4px;
  }
`;
