import { css } from 'lit';

export const styles = css`
  :host {
    container-type: inline-size;
  }
  :host(:fullscreen) {
    display: grid;
    grid-template-rows: auto 1fr;
    padding: var(--bench-space-4);
    background: var(--bench-plate);
    overflow: auto;
  }
  bench-relief {
    height: min(580px, max(420px, 100vh - 350px), 120vw);
  }
  :host(:fullscreen) .more {
    display: none;
  }
  :host(:fullscreen) bench-relief {
    height: calc(100vh - 210px);
  }
  /* Beside the reed there is room for what else is chosen. */
  @media (min-width: 900px) and (min-height: 700px) {
    :host(:fullscreen) .picture > bench-relief {
      height: calc(100vh - 130px);
    }
    :host(:fullscreen) .open {
      position: absolute;
      right: 0;
      bottom: var(--bench-space-2);
      width: 300px;
    }
  }
  .body,
  .picture {
    position: relative;
  }
  .lamp {
    position: absolute;
    bottom: 0;
    left: 0;
    width: 34%;
    margin: 0;
    padding: var(--bench-space-2);
    border-radius: var(--bench-radius-plate);
    --bench-relief-name: none;
    /* A dark ground in every look: light is judged against the dark. */
    --bench-theme: lamp;
    --bench-ink: #f0cd98;
    --bench-ink2: #c7a171;
    background: #0b0805;
    color: #e2c79c;
    font: var(--bench-font-caption);
    forced-color-adjust: none;
  }
  /* In a low picture it is low enough to leave the reed free. */
  .lamp bench-relief,
  :host(:fullscreen) .lamp bench-relief {
    height: clamp(96px, 100vh - 680px, 190px);
    min-height: 0;
  }
  .lamp p {
    margin: 0;
  }
  /* The reed lies from the upper left to the lower right: the other corners are free. */
  @container (min-width: 640px) {
    .lamp {
      top: 0;
      right: 0;
      bottom: auto;
      left: auto;
      width: 31%;
    }
    .fill.lit {
      position: static;
    }
  }
  /* In a low picture its words stand beside it. */
  @media (max-height: 830px) {
    @container (min-width: 460px) and (max-width: 639px) {
      .lamp {
        display: grid;
        grid-template-columns: 100px 1fr;
        grid-template-rows: auto 1fr;
        column-gap: var(--bench-space-2);
        width: 240px;
        --bench-relief-distance: none;
      }
      .lamp bench-relief {
        grid-row: 1 / 3;
        grid-column: 1;
        height: 100%;
      }
    }
  }
  @container (max-width: 459px) {
    .lamp {
      position: static;
      width: auto;
    }
    .lamp bench-relief {
      height: 190px;
    }
  }
  .open {
    display: flex;
    flex: 1 1 100%;
    flex-wrap: wrap;
    gap: var(--bench-space-3) var(--bench-space-5);
    align-items: center;
  }
  .open[hidden] {
    display: none;
  }
  .head {
    /* Off the words under the legend's ends. */
    padding-top: 6px;
  }
  .head p,
  .probe {
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .probe {
    min-height: 1.4em;
  }
  bench-relief-leader {
    display: none;
  }
  .fill kbd {
    display: none;
  }
  /* Where there is room beside the reed its free corners take what would need another row; a line leads to the place, and its words are seen once. */
  @container (min-width: 460px) {
    bench-relief-leader {
      display: block;
    }
    .fill kbd {
      display: inline;
    }
    .fill {
      position: absolute;
      top: 0;
      right: 0;
    }
    .lift {
      position: absolute;
      bottom: 0;
      left: 0;
    }
    .lift input {
      width: 56px;
    }
    .probe {
      position: absolute;
      width: 1px;
      height: 1px;
      min-height: 0;
      overflow: hidden;
      clip-path: inset(50%);
    }
  }
  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2);
    align-items: center;
    margin-block: var(--bench-space-2);
  }
  .switches,
  .light {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2);
    align-items: center;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .tools button {
    padding-inline: var(--bench-space-3);
    font: var(--bench-font-caption);
  }
  .body label {
    flex-wrap: nowrap;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .body input {
    width: 90px;
  }
  .views {
    display: grid;
    grid-template-areas:
      '. tip .'
      'one above two'
      'below cork .';
    gap: var(--bench-space-1);
  }
  .views .tip {
    grid-area: tip;
  }
  .views .side-1 {
    grid-area: one;
  }
  .views .above {
    grid-area: above;
  }
  .views .side-2 {
    grid-area: two;
  }
  .views .below {
    grid-area: below;
  }
  .views .cork {
    grid-area: cork;
  }
  kbd {
    margin-left: var(--bench-space-1);
    color: var(--bench-ink3);
    font: inherit;
  }
  @media print {
    .tools {
      display: none;
    }
  }
`;
