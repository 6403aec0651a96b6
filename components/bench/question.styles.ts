import { css } from 'lit';

/** The three columns of a question: answer, plate, evidence; fewer where there is less room, one on a phone. */
export const questionStyles = css`
  :host {
    /* 21.7 px to the mm, or as large as leaves both blades whole, with their side 1, in sight under bar and questions. */
    --bench-pair-width: min(550px, max(400px, (100vh - 305px) * 0.92));

    container-type: inline-size;
  }
  @media (max-width: 1180px) {
    :host {
      --bench-pair-width: min(550px, max(400px, (100vh - 250px) * 0.92));
    }
  }
  .columns {
    display: grid;
    grid-template-columns: 300px minmax(0, 1fr);
    grid-template-areas:
      'answer board'
      'figures board';
    grid-template-rows: auto 1fr;
    gap: var(--bench-space-4) var(--bench-space-5);
    padding: var(--bench-space-3) var(--bench-page-margin) var(--bench-space-7);
    align-items: start;
  }
  /* The plate: blades at one height and scale under every question, and beside them what they are seen by. */
  .board {
    display: grid;
    grid-area: board;
    grid-template-columns: auto minmax(0, 1fr);
    gap: var(--bench-space-4);
    align-items: start;
    min-width: 0;
  }
  .board {
    padding: var(--bench-space-2) var(--bench-space-4) var(--bench-space-3);
    border: 1px solid var(--bench-rule);
    border-radius: var(--bench-radius-plate);
    background: var(--bench-plate);
  }
  .answer {
    grid-area: answer;
  }
  .plate {
    width: var(--bench-pair-width);
    min-width: 0;
  }
  .plate.third {
    width: calc((var(--bench-pair-width) - 8px) * 0.445 + var(--bench-pair-width) + var(--bench-space-3));
  }
  /* The lamp: as wide as a blade of the plate, its words on the lines of the plate's. */
  bench-reed-lamp {
    flex: none;
    align-self: start;
    width: calc((var(--bench-pair-width) - 8px) * 0.445);
    margin-top: -38px;
  }
  .figures {
    grid-area: figures;
  }
  .answer,
  .figures,
  .evidence {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--bench-space-4);
    min-width: 0;
  }
  .say {
    margin: 0;
    font: var(--bench-font-say);
    text-wrap: pretty;
  }
  .aside {
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-aside);
  }
  .note {
    margin: 0;
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  h2 {
    margin: 0;
    font: var(--bench-font-head);
  }
  section {
    min-width: 0;
  }
  .folds > details {
    padding-bottom: var(--bench-space-2);
    border-top: 1px solid var(--bench-rule);
  }
  .folds > details:last-child {
    border-bottom: 1px solid var(--bench-rule);
  }
  .folds > details > summary {
    display: flex;
    align-items: center;
    min-height: var(--bench-touch);
    color: var(--bench-ink2);
    cursor: pointer;
  }
  .folds > details > summary::before {
    flex: none;
    width: 1.2em;
    content: '+';
  }
  .folds > details[open] > summary::before {
    content: '−';
  }
  .folds p + p {
    margin-top: var(--bench-space-2);
  }
  .scroll {
    overflow-x: auto;
  }
  .line {
    display: flex;
    gap: var(--bench-space-2);
    align-items: center;
    min-height: var(--bench-touch);
  }
  .line input {
    width: 20px;
    height: 20px;
    accent-color: var(--bench-ink);
  }
  @container (max-width: 1150px) {
    .columns {
      grid-template-areas:
        'plate answer'
        'plate figures'
        'plate evidence';
      grid-template-columns: minmax(0, 582px) minmax(0, 1fr);
      grid-template-rows: auto auto 1fr;
    }
    .board {
      display: contents;
    }
    .plate,
    .plate.third {
      grid-area: plate;
      width: auto;
      padding: var(--bench-space-2) var(--bench-space-4) var(--bench-space-3);
      border: 1px solid var(--bench-rule);
      border-radius: var(--bench-radius-plate);
      background: var(--bench-plate);
    }
    .evidence {
      grid-area: evidence;
    }
  }
  @container (max-width: 980px) {
    .columns {
      grid-template-areas:
        'answer answer'
        'plate plate'
        'figures evidence';
      grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
      grid-template-rows: none;
    }
    .plate {
      max-width: 680px;
    }
  }
  @container (max-width: 760px) {
    .columns {
      grid-template-areas: 'answer' 'plate' 'figures' 'evidence';
      grid-template-columns: minmax(0, 1fr);
      grid-template-rows: none;
    }
  }
`;

/** Paper gets the answer, the plate and the tables: nothing that only moves or unfolds. */
export const paperStyles = css`
  @media print {
    .columns {
      grid-template-areas: 'answer' 'plate' 'figures' 'evidence';
      grid-template-columns: minmax(0, 1fr);
      grid-template-rows: none;
      padding: 0;
    }
    .board {
      display: contents;
    }
    .plate,
    .plate.third {
      grid-area: plate;
      width: auto;
      border: 0;
      padding: 0;
      break-inside: avoid;
    }
    .evidence {
      grid-area: evidence;
      max-width: 130mm;
      break-inside: avoid;
    }
    .folds,
    .line,
    .choice,
    button,
    select,
    details,
    section:has(bench-clip-ruler),
    bench-target-chooser,
    bench-what-to-try {
      display: none;
    }
  }
`;

/** The one framed step of a plan. */
export const stepStyles = css`
  .lone {
    max-width: 34em;
    padding: var(--bench-space-6) var(--bench-page-margin);
  }
  .step {
    display: grid;
    gap: var(--bench-space-2);
    padding: var(--bench-space-4);
    border: 1px solid var(--bench-ink);
    border-radius: var(--bench-radius-button);
    background: var(--bench-plate);
  }
  .step p {
    margin: 0;
  }
  .step button {
    justify-self: start;
  }
  .take {
    display: flex;
    gap: var(--bench-space-3);
    align-items: baseline;
  }
  .take b {
    font: var(--bench-font-take);
  }
  ul {
    margin: 0;
    padding: 0;
    list-style: none;
  }
  li {
    padding: var(--bench-space-2) 0;
    border-top: 1px solid var(--bench-rule);
  }
`;
