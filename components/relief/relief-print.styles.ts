import { css } from 'lit';

export const styles = css`
  :host(:fullscreen) {
    display: grid;
    grid-template-rows: 1fr auto;
    padding: var(--bench-space-4);
    background: var(--bench-plate);
  }
  bench-picture {
    position: relative;
  }
  bench-relief {
    height: min(680px, 86vw);
  }
  :host(:fullscreen) bench-relief {
    height: calc(100vh - 210px);
  }
  .lamp {
    margin: var(--bench-space-2) 0 0;
    padding: var(--bench-space-3);
    border-radius: var(--bench-radius-plate);
    /* A dark ground in every look: light is judged against the dark. */
    --bench-theme: lamp;
    --bench-ink: #f0cd98;
    --bench-ink2: #c7a171;
    background: #0b0805;
    color: #e2c79c;
    font: var(--bench-font-caption);
    forced-color-adjust: none;
  }
  .lamp bench-relief {
    height: 260px;
  }
  .lamp p {
    margin: 0;
  }
  .head {
    display: flow-root;
  }
  h2 {
    margin: 0;
    font: var(--bench-font-head);
  }
  .head p,
  .probe {
    max-width: 64ch;
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .probe {
    min-height: 1.4em;
  }
  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3) var(--bench-space-5);
    align-items: center;
    margin-top: var(--bench-space-2);
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
