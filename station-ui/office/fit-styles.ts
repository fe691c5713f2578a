import { css } from 'lit';

export const fitStyles = css`
  form {
    display: flex;
    flex-wrap: wrap;
    gap: 12px 24px;
    align-items: end;
    margin: 14px 0 18px;
  }
  fieldset {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 14px;
    border: 0;
    border-left: 3px dashed var(--thread);
    margin: 0;
    padding: 0 0 0 14px;
    min-width: 0;
  }
  legend {
    font-weight: 700;
    padding: 0 0 4px;
  }
  label {
    display: grid;
    gap: 2px;
  }
  label input {
    width: 11em;
  }
  label.wide input {
    width: 19em;
    max-width: 100%;
  }
  select {
    max-width: 15em;
  }
  select:disabled,
  input:disabled {
    border-style: dashed;
    color: var(--walnut);
  }
  .last {
    display: flex;
    gap: 14px;
    align-items: end;
  }
  .failure {
    color: var(--madder);
    font-weight: 700;
    margin-bottom: 12px;
  }
  .summary {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(320px, 1fr));
    gap: 8px 28px;
    background: var(--kraft);
    --walnut: var(--walnut-deep);
    --madder: var(--madder-deep);
    --verdigris: var(--verdigris-deep);
    padding: 12px 18px 14px;
    clip-path: polygon(0 0, calc(100% - 24px) 0, 100% 24px, 100% 100%, 0 100%);
  }
  .summary li {
    margin-bottom: 6px;
  }
  .count {
    margin-top: 20px;
  }
  .legend {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 22px;
    margin: 2px 0 12px;
  }
  .legend span {
    display: inline-flex;
    gap: 8px;
    align-items: center;
  }
  .legend i {
    width: 26px;
    height: 16px;
    border: 2px solid var(--ink);
  }
  i.inside {
    background: var(--chalk);
  }
  i.closing {
    background: repeating-linear-gradient(-45deg, var(--thread) 0 3px, var(--chalk) 3px 7px);
  }
  i.stack {
    background: var(--indigo-tint);
    border-color: var(--indigo);
  }
  .legend i.room {
    border: 2px dashed var(--madder);
  }
  .cards {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(330px, 1fr));
    gap: 22px 26px;
    align-items: start;
  }
  .cards > li {
    border-top: 3px dashed var(--thread);
    padding-top: 10px;
    min-width: 0;
  }
  .cards > li.chosen {
    border-top: 4px solid var(--indigo);
  }
  .mark {
    display: inline-block;
    background: var(--indigo);
    color: var(--on-indigo);
    padding: 1px 10px;
    font-size: 14px;
    vertical-align: 2px;
  }
  .verdict {
    margin: 4px 0 8px;
  }
  .cards svg[role='img'] {
    max-width: 100%;
    height: auto;
    display: block;
    margin-bottom: 8px;
    overflow: visible;
  }
  svg text {
    font-size: 32px;
    fill: var(--walnut);
  }
  rect.inside {
    fill: none;
    stroke: var(--ink);
    stroke-width: 4;
  }
  rect.closing {
    fill: var(--thread);
  }
  rect.stack {
    fill: var(--indigo-tint);
    stroke: var(--indigo);
    stroke-width: 4;
  }
  rect.room {
    fill: none;
    stroke: var(--madder);
    stroke-width: 4;
    stroke-dasharray: 14 9;
  }
  dl {
    display: grid;
    grid-template-columns: max-content minmax(0, 1fr);
    gap: 2px 14px;
  }
  dt {
    color: var(--walnut);
  }
  dt::first-letter {
    text-transform: uppercase;
  }
  dd .secondary {
    display: block;
  }
  .why {
    margin-top: 8px;
    font-weight: 700;
  }
  summary {
    min-height: 44px;
    display: flex;
    align-items: center;
    cursor: pointer;
    text-decoration: underline;
  }
  details li {
    padding: 2px 0 2px 14px;
    border-left: 3px dashed var(--thread);
  }
`;
