import { css } from 'lit';

/** Options as large as a hand, scenes as tags; on a small tablet all of it closer together. */
export const practiceStyles = css`
  .told,
  .standing,
  .ask,
  .why {
    display: flex;
    gap: 14px;
    align-items: center;
  }
  .ask {
    font-size: 40px;
  }
  .options {
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    grid-auto-rows: auto;
    gap: 10px;
    align-content: start;
    overflow: auto;
    padding: 4px;
  }
  .options.many {
    grid-template-columns: repeat(3, minmax(0, 1fr));
  }
  /* A row is as high as its longest text even where there is too little room for all: then the list scrolls. */
  li {
    display: flex;
  }
  li button,
  .done {
    flex: 1;
    min-height: 70px;
    display: flex;
    gap: 14px;
    align-items: center;
    padding: 8px 18px;
    border: 3px solid var(--ink);
    background: var(--chalk);
    font-size: 26px;
    line-height: 1.12;
    text-align: left;
  }
  li button {
    cursor: pointer;
  }
  .marked {
    background: var(--indigo-pale);
    outline: 5px solid var(--indigo);
    outline-offset: -2px;
  }
  .done {
    border-style: dashed;
    border-color: var(--thread);
  }
  .done.right {
    border: 4px solid var(--verdigris);
  }
  .done.wrong {
    border: 4px dashed var(--madder);
  }
  .word {
    margin-left: 8px;
  }
  .right .word {
    color: var(--verdigris);
  }
  .wrong .word {
    color: var(--madder);
  }
  .note {
    display: block;
    font-size: 21px;
    line-height: 1.15;
    font-weight: 400;
    color: var(--walnut);
  }
  .scene {
    display: grid;
    grid-template-columns: 1.4fr 1fr 0.9fr 0.9fr 1.4fr;
    gap: 10px;
    margin: 0;
  }
  .scene > div {
    padding: 8px 14px 10px;
    background: var(--kraft);
    --walnut: var(--walnut-deep);
    clip-path: polygon(0 0, calc(100% - 18px) 0, 100% 18px, 100% 100%, 0 100%);
  }
  dt {
    font-size: 20px;
    color: var(--walnut);
  }
  dd {
    font-size: 25px;
    line-height: 1.12;
  }
  .scrolls {
    overflow: auto;
  }
  @media (min-height: 700px) {
    .options {
      gap: 14px;
    }
    li button {
      min-height: 104px;
    }
    .done {
      min-height: 84px;
    }
    li button,
    .done {
      font-size: 31px;
    }
    .note {
      font-size: 24px;
    }
    dd {
      font-size: 28px;
    }
  }
  @media (max-width: 900px) {
    .options,
    .options.many {
      grid-template-columns: repeat(2, minmax(0, 1fr));
    }
    .scene {
      grid-template-columns: repeat(2, minmax(0, 1fr));
    }
  }
  @media (max-height: 680px) {
    :host {
      gap: 6px;
    }
    .options {
      gap: 6px;
    }
    li button,
    .done {
      min-height: 64px;
    }
    li button,
    .done {
      padding: 4px 12px;
      font-size: 22px;
    }
    .note,
    dt {
      font-size: 20px;
    }
    dd {
      font-size: 22px;
    }
    .scene {
      gap: 6px;
    }
    .scene > div {
      padding: 4px 10px 6px;
    }
    .why {
      font-size: 21px;
      line-height: 1.1;
    }
  }
`;
