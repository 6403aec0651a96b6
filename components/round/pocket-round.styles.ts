import { css } from 'lit';

/** The round in the hand: the place above, keys of at least 84 px in the lower part; held across, keys at the right. */
export const pocketStyles = css`
  .pocket {
    display: grid;
    grid-template-rows: auto auto minmax(0, 1fr) auto auto;
    gap: var(--bench-space-2);
    height: 100vh;
    height: 100dvh;
    min-height: 590px;
    padding: 0 var(--bench-page-margin) var(--bench-space-3);
    overflow: hidden;
    touch-action: manipulation;
  }
  .pocket .header {
    flex-wrap: nowrap;
    font-size: calc(14px * var(--bench-scale));
    position: relative;
    white-space: nowrap;
  }
  .pocket .header > :first-child {
    flex: 1 1 auto;
    min-width: 0;
    overflow: hidden;
    text-overflow: ellipsis;
  }
  .pocket .put-down {
    min-width: var(--bench-touch);
  }
  .pocket .plan {
    display: none;
  }
  .pocket progress {
    position: absolute;
    inset: auto 0 0;
    width: 100%;
    height: 5px;
  }
  .place {
    display: grid;
    grid-template-columns: minmax(0, 1.55fr) minmax(0, 1fr);
    gap: var(--bench-space-3);
    min-height: 0;
    padding-bottom: var(--bench-space-2);
    border-bottom: 1px solid var(--bench-rule);
  }
  .place .words {
    display: flex;
    flex-direction: column;
    justify-content: space-between;
    min-height: 0;
  }
  .place .where {
    /* Letters of some fonts are taller than their line. */
    row-gap: 0.1em;
    font-size: calc(clamp(56px, min(12dvh, 23vw), 190px) * var(--bench-scale));
    white-space: nowrap;
  }
  .place .where.long {
    font-size: calc(clamp(48px, min(12dvh, 17vw), 150px) * var(--bench-scale));
  }
  .place .unit {
    flex-basis: 100%;
    font-size: calc(clamp(16px, 2.6dvh, 30px) * var(--bench-scale));
  }
  .place .across {
    font-size: calc(clamp(19px, 3.1dvh, 40px) * var(--bench-scale));
    font-weight: 700;
    line-height: 1.1;
  }
  .place .steps {
    min-height: 0;
  }
  .pocket .steps text {
    display: none;
  }
  .pocket .outline {
    display: grid;
    min-height: 0;
    overflow: hidden;
  }
  .pocket .outline svg {
    width: 100%;
    height: 100%;
    max-height: none;
    min-height: 0;
  }
  .pocket .outline:not(.numbers) :is(.number, .tick, .word, .older) {
    display: none;
  }
  .pocket .outline:not(.numbers) circle:is(.taken, .waiting) {
    fill: var(--bench-ink);
    r: 7px;
  }
  .pocket .outline:not(.numbers) circle.waiting {
    fill: none;
    stroke: var(--bench-ink);
    stroke-width: 2px;
  }
  .pocket .outline:not(.numbers) circle.to-come {
    fill: var(--bench-paper);
    stroke: var(--bench-rule2);
    stroke-width: 2px;
    r: 6px;
  }
  .numbers .number {
    font-size: 19px;
  }
  .pocket .outline .next {
    r: 17px;
  }
  .pocket .outline .next-ring {
    r: 24px;
  }
  .pocket .outline .side-1 {
    r: 11px;
  }
  .pocket .outline .lozenge {
    stroke-width: 4px;
  }
  .pocket .heard {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    gap: var(--bench-space-2) var(--bench-space-4);
    min-height: 0;
    margin: 0;
    padding: 0;
    border: 0;
  }
  .pocket h2,
  .place h1 {
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-body);
    font-size: calc(14px * var(--bench-scale));
  }
  .last p {
    display: flex;
    gap: var(--bench-space-2);
    align-items: center;
    margin: 0;
    color: var(--bench-ink2);
    font-size: calc(13.5px * var(--bench-scale));
    line-height: 1.2;
  }
  .last .lozenge {
    width: 22px;
    height: 22px;
  }
  .last b,
  .pocket .figure {
    color: var(--bench-ink);
    font-size: calc(clamp(46px, 6.4dvh, 90px) * var(--bench-scale));
    font-weight: 600;
    line-height: 1;
  }
  .pocket .figure {
    justify-content: flex-start;
    min-height: calc(clamp(52px, 7.4dvh, 100px) * var(--bench-scale));
    padding: 0 var(--bench-space-2);
    border: 1px solid var(--bench-rule2);
    background: var(--bench-sunk);
  }
  .pocket .figure small {
    position: absolute;
    right: var(--bench-space-2);
    bottom: var(--bench-space-1);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .pocket .saying .figure small,
  .pocket .figure.unseen small {
    display: none;
  }
  .pocket .saying .figure,
  .pocket .figure.unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    min-height: 0;
    padding: 0;
    border: 0;
    overflow: hidden;
    clip-path: inset(50%);
  }
  .heard.saying {
    grid-template-columns: minmax(0, 0.55fr) minmax(0, 1fr);
  }
  .heard.saying .last p {
    flex-wrap: wrap;
    gap: 0 var(--bench-space-2);
  }
  .pocket .sentence {
    font-size: calc(15px * var(--bench-scale));
    line-height: 1.25;
  }
  .pocket .chips {
    flex-wrap: nowrap;
    overflow-x: auto;
  }
  .pocket .chips button {
    flex: none;
    padding: 0 var(--bench-space-2);
  }
  .pad {
    display: grid;
    grid-template-columns: repeat(4, minmax(0, 1fr));
    grid-auto-rows: minmax(0, 1fr);
    gap: var(--bench-space-2);
    height: clamp(360px, 50dvh, 720px);
    user-select: none;
    -webkit-tap-highlight-color: transparent;
  }
  .pad button,
  .big-keys button {
    padding: 0 2px;
    border-radius: var(--bench-radius-key);
    background: var(--bench-plate);
    font-size: calc(15px * var(--bench-scale));
    touch-action: manipulation;
  }
  .pocket .main-button {
    background: var(--bench-ink);
  }
  .pad .digit {
    font-size: calc(clamp(32px, 4.6dvh, 56px) * var(--bench-scale));
    font-weight: 600;
  }
  .pad strong {
    display: block;
    font-size: calc(19px * var(--bench-scale));
    font-weight: 600;
    line-height: 1.2;
  }
  .pad span,
  .big-keys span {
    font-size: calc(13.5px * var(--bench-scale));
  }
  .rub-out {
    width: 34px;
    stroke: var(--bench-ink);
    stroke-width: 2.2;
    fill: none;
  }
  .pocket dialog {
    width: min(100vw - 16px, 480px);
    max-width: none;
    max-height: 92dvh;
    padding: var(--bench-space-4);
    overflow: auto;
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-case);
    background: var(--bench-paper);
    color: var(--bench-ink);
  }
  dialog::backdrop {
    background: rgb(0 0 0 / 0.4);
  }
  .more {
    display: grid;
    gap: var(--bench-space-3);
  }
  .more button {
    min-height: 56px;
  }
  .more label {
    flex-wrap: wrap;
  }

  @media (orientation: landscape) {
    .pocket {
      grid-template-rows: auto auto minmax(0, 1fr) auto;
      grid-template-columns: minmax(0, 1.25fr) minmax(0, 1fr);
      gap: var(--bench-space-1) var(--bench-space-5);
      min-height: 0;
      padding-top: var(--bench-space-1);
    }
    .pocket > :not(.pad, .big-keys, .question, dialog) {
      grid-column: 1;
    }
    .pad {
      grid-row: 1 / -1;
      grid-column: 2;
      height: auto;
      padding-top: var(--bench-space-2);
    }
    .place {
      padding-bottom: var(--bench-space-1);
    }
    .place .where {
      font-size: calc(clamp(48px, min(22dvh, 11vw), 180px) * var(--bench-scale));
    }
    .place .unit {
      font-size: calc(clamp(14px, 4.6dvh, 30px) * var(--bench-scale));
    }
    .place .across {
      font-size: calc(clamp(17px, 5.6dvh, 40px) * var(--bench-scale));
    }
    .pocket .figure,
    .last b {
      font-size: calc(clamp(46px, 12dvh, 90px) * var(--bench-scale));
    }
    .pad .digit {
      font-size: calc(clamp(28px, 9.6dvh, 56px) * var(--bench-scale));
    }
  }
  @media (max-height: 700px) and (orientation: portrait) {
    .place h1 {
      position: absolute;
      clip-path: inset(50%);
    }
    .place .where {
      font-size: calc(min(60px, 18vw) * var(--bench-scale));
    }
    .place .where.long {
      font-size: calc(min(50px, 15vw) * var(--bench-scale));
    }
    .pad {
      height: 344px;
    }
  }
  @media (max-height: 340px) {
    .pad button:not(.main-button) span {
      display: none;
    }
  }
  @media (max-width: 340px) {
    .pocket .header {
      gap: var(--bench-space-2);
      font-size: calc(13px * var(--bench-scale));
    }
    .last p {
      font-size: calc(12.5px * var(--bench-scale));
    }
    .pocket .figure small {
      display: none;
    }
    .pad strong {
      font-size: calc(17px * var(--bench-scale));
    }
  }
  @media (max-width: 280px) {
    .pocket {
      height: auto;
      padding: 0 3px 3px;
      overflow: visible;
    }
    .pocket .header {
      flex-wrap: wrap;
    }
    .pocket .heard,
    .place,
    .heard.saying {
      grid-template-columns: minmax(0, 1fr);
    }
    .place .outline {
      display: none;
    }
    .pad {
      gap: 4px;
      height: 364px;
    }
    .pad strong {
      font-size: 13px;
    }
  }
`;
