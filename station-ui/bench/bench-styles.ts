import { css } from 'lit';

/** Where things stand on the bench: landscape, portrait, and a 7-inch tablet. One screen, never a scroll. */
export const benchStyles = css`
  :host {
    display: block;
    height: 100dvh;
    overflow: hidden;
    --size-instruction: 66px;
    --size-instruction-long: 62px;
    --size-say: 28px;
    --size-small: 22px;
  }
  .shell {
    position: relative;
    display: grid;
    height: 100%;
    grid-template-columns: minmax(0, 1fr) 344px;
    grid-template-rows: minmax(66px, auto) minmax(0, 1fr) auto 38px 128px;
    grid-template-areas:
      'top top'
      'main side'
      'commands commands'
      'seam seam'
      'weigh weigh';
    --tray-top: 66px;
  }
  .shell.simulated {
    grid-template-columns: minmax(0, 1fr) 388px;
  }
  .top {
    grid-area: top;
    display: flex;
    align-items: center;
    gap: 24px;
    padding: 0 0 0 28px;
    border-bottom: 3px dashed var(--thread);
  }
  .who {
    white-space: nowrap;
  }
  .who span {
    margin-left: 12px;
  }
  bf-last-scan {
    flex: 1;
    text-align: right;
  }
  .switches {
    display: flex;
    flex: none;
    align-self: stretch;
  }
  .switches button {
    min-width: 76px;
    min-height: 64px;
    padding: 0 10px;
    border: 0;
    border-left: 3px dashed var(--thread);
    background: transparent;
    font-size: 20px;
    cursor: pointer;
  }
  /* One word each, which does not break. */
  .switches [data-switch='language'],
  .switches [data-switch='theme'] {
    flex: none;
  }
  main {
    grid-area: main;
    display: flex;
    flex-direction: column;
    gap: 12px;
    min-height: 0;
    padding: 14px 28px 8px;
  }
  main.empty {
    grid-row: 2 / -1;
    grid-column: 1 / -1;
    justify-content: center;
  }
  .empty h1 {
    display: flex;
    gap: 24px;
    align-items: center;
  }
  .task {
    flex: 1;
    min-height: 0;
    container: task / size;
  }
  .side {
    grid-area: side;
    padding: 12px 18px;
  }
  .simulated .side {
    padding-right: 62px;
  }
  .commands {
    grid-area: commands;
    display: flex;
    gap: 16px;
    padding: 10px 28px 6px;
    border-top: 3px dashed var(--thread);
  }
  .practice {
    flex: none;
    padding: 2px 10px;
    font-size: 20px;
    white-space: nowrap;
    border-width: 3px;
    overflow: hidden;
    text-overflow: ellipsis;
  }
  .practice + bf-last-scan {
    display: none;
  }
  @media (min-width: 901px) {
    .practice ~ bf-device-marks {
      margin-left: auto;
    }
  }
  .practice b,
  .practice span:not(.only-read) {
    background: var(--weld);
  }
  .practising .seam,
  .practising .weigh {
    display: none;
  }
  .shell.practising,
  .shell.simulated.practising {
    grid-template-rows: minmax(66px, auto) minmax(0, 1fr) auto 0 10px;
  }
  bf-commands {
    flex: 1;
    min-width: 0;
  }
  .seam {
    grid-area: seam;
    display: flex;
    align-items: center;
  }
  .seam bf-seam {
    flex: 1;
    min-width: 0;
  }
  .batch {
    display: flex;
    gap: 10px;
    align-items: center;
  }
  .day-count,
  .risk {
    display: flex;
    gap: 16px;
    align-items: center;
  }
  .day-count {
    padding-right: 28px;
    font-size: 20px;
    line-height: 1;
    white-space: nowrap;
    font-variant-numeric: tabular-nums;
  }
  .risk {
    gap: 6px;
    font-weight: 700;
  }
  .weigh {
    grid-area: weigh;
  }
  .tray {
    --tray-top: 67px;
  }
  .alone main {
    grid-column: 1 / -1;
  }
  .alone .side {
    display: none;
  }
  .simulated.alone main {
    padding-right: 72px;
  }
  /* What lies under the tray shows nowhere beside it. */
  @media (min-width: 901px) {
    .tray-open .side {
      visibility: hidden;
    }
  }
  .tray-open .commands,
  .tray-open .seam,
  .tray-open .weigh {
    margin-right: 388px;
    --size-command: 20px;
  }
  .tray-open.alone main {
    padding-right: 400px;
  }
  @media (max-width: 1100px) and (min-width: 901px) {
    .tray-open .guidance {
      display: none;
    }
  }
  .lost {
    display: flex;
    gap: 18px;
    align-items: center;
    padding: 10px 18px;
    color: var(--madder);
    border: 5px solid var(--madder);
    border-bottom-style: dashed;
  }
  .own {
    display: flex;
    gap: 12px;
    align-items: center;
  }
  .own button {
    min-height: 64px;
    padding: 4px 22px;
    font-size: 22px;
    border: 3px solid var(--ink);
    background: var(--chalk);
    cursor: pointer;
  }
  .problem {
    padding: 8px 16px;
    font-weight: 700;
  }
  .problem span {
    background: var(--weld);
    padding: 0 8px;
  }

  @media (max-width: 900px) {
    .shell.practising,
    .shell.simulated.practising {
      grid-template-rows: minmax(116px, auto) minmax(0, 1fr) 0 auto 0 10px;
    }
    :host {
      --size-instruction: 62px;
    }
    .shell,
    .shell.simulated {
      grid-template-columns: minmax(0, 1fr);
      grid-template-rows: minmax(116px, auto) minmax(0, 1fr) auto auto 40px 132px;
      grid-template-areas:
        'top'
        'main'
        'side'
        'commands'
        'seam'
        'weigh';
    }
    .top {
      display: grid;
      grid-template-columns: auto minmax(0, 1fr) auto;
      grid-template-rows: 64px auto;
      gap: 0 20px;
      align-content: start;
    }
    .switches {
      grid-column: 3;
      grid-row: 1;
    }
    /* Under the switches, which leave it no room beside them. */
    bf-last-scan {
      grid-column: 2 / -1;
      grid-row: 2;
      justify-self: end;
      align-self: center;
      width: 240px;
      padding-top: 8px;
      margin-right: 28px;
    }
    .practice {
      grid-column: 2 / -1;
      grid-row: 2;
      justify-self: end;
      align-self: start;
      margin-top: 6px;
      margin-right: 28px;
      z-index: 1;
    }
    bf-device-marks {
      grid-column: 1 / -1;
      grid-row: 2;
      min-height: 49px;
      padding-block: 8px;
      border-top: 3px dashed var(--thread);
      margin-left: -28px;
      padding-left: 28px;
      padding-right: 280px;
    }
    .commands {
      position: relative;
    }
    .guidance {
      position: absolute;
      right: 28px;
      bottom: 6px;
    }
    .simulated .side,
    .side {
      padding: 14px 28px;
      max-height: 236px;
    }
    .simulated main {
      padding-right: 60px;
    }
    .tray {
      --tray-top: 330px;
      --drawer-top: 300px;
    }
    .tray-open .commands,
    .tray-open .seam,
    .tray-open .weigh {
      margin-right: 0;
    }
    .tray-open.alone main {
      padding-right: 60px;
    }
  }

  @media (max-width: 1100px) and (min-width: 901px) {
    .top {
      gap: 12px;
    }
    .practising-top .who b {
      display: none;
    }
  }

  @media (max-width: 1100px) {
    .practice span:not(.only-read) {
      display: none;
    }
  }

  @media (max-height: 680px) {
    :host {
      --size-instruction: 48px;
      --size-instruction-long: 48px;
      --size-say: 24px;
      --size-small: 20px;
      --size-command: 24px;
      --size-mass: 48px;
    }
    .shell,
    .shell.simulated {
      grid-template-rows: minmax(64px, auto) minmax(0, 1fr) auto 28px 120px;
      grid-template-columns: minmax(0, 1fr) 316px;
    }
    main {
      padding: 8px 20px 4px;
      gap: 6px;
    }
    .commands {
      padding: 6px 20px 2px;
    }
    .side {
      padding: 8px 12px;
    }
    .simulated .side {
      padding-right: 52px;
    }
  }
`;
