import { css } from 'lit';

/** Questions of the round in the hand: the whole screen for one, its answers as large keys. */
export const questionStyles = css`
  .question {
    display: grid;
    grid-row: 3 / 6;
    grid-template-rows: auto minmax(0, 1fr) auto auto auto;
    gap: var(--bench-space-2);
    min-height: 0;
  }
  .question:has(~ .pad) {
    grid-row: 3 / 5;
  }
  .question h1 {
    margin: 0;
    font: var(--bench-font-reed);
    font-size: calc(clamp(24px, 4.1dvh, 44px) * var(--bench-scale));
    line-height: 1.15;
  }
  .question h1.smaller {
    font-size: calc(clamp(19px, 3.1dvh, 34px) * var(--bench-scale));
  }
  .question > p {
    margin: 0;
    color: var(--bench-ink2);
    text-align: center;
  }
  .question .odd-number {
    display: flex;
    gap: var(--bench-space-4);
    align-items: center;
    text-align: left;
  }
  .odd-number b {
    color: var(--bench-ink);
    font-size: calc(clamp(48px, 8.4dvh, 90px) * var(--bench-scale));
    line-height: 1;
  }
  .odd-number .lozenge {
    width: 48px;
    height: 48px;
  }
  .question:has(.odd-number) {
    grid-template-rows: auto auto minmax(0, 1fr) auto;
  }
  .both {
    display: grid;
    grid-auto-flow: column;
    grid-auto-columns: minmax(0, 1fr);
    min-height: 0;
  }
  .telling {
    max-height: 24dvh;
    overflow: auto;
  }
  .telling p {
    margin: 0 0 var(--bench-space-1);
    line-height: 1.3;
  }
  .question.end {
    grid-template-rows: auto minmax(0, 1fr) auto auto auto;
  }
  .big-keys {
    display: grid;
    grid-template-columns: 1fr 1fr;
    gap: var(--bench-space-2);
  }
  .big-keys button {
    min-height: 84px;
  }
  .big-keys strong {
    display: block;
    font-size: calc(20px * var(--bench-scale));
    font-weight: 600;
  }
  .big-keys button:first-child,
  .big-keys button:last-child:nth-child(even) {
    grid-column: 1 / -1;
  }
  .big-keys button:first-child strong {
    font-size: calc(24px * var(--bench-scale));
  }

  @media (orientation: landscape) {
    .question {
      grid-row: 3 / -1;
      grid-column: 1 / -1;
      grid-template-rows: auto minmax(0, 1fr) auto !important;
      grid-template-columns: minmax(0, 1.25fr) minmax(0, 1fr);
      column-gap: var(--bench-space-5);
    }
    .question > * {
      grid-column: 1;
    }
    .question .big-keys {
      grid-row: 1 / -1;
      grid-column: 2;
      align-content: stretch;
    }
    .question .big-keys button {
      min-height: 64px;
    }
    .question > .foot {
      display: none;
    }
    .question:has(~ .pad) {
      grid-row: 3 / -1;
      grid-column: 1;
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;
