import { css } from 'lit';

export const styles = css`
  .page {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(260px, 372px);
    gap: var(--bench-space-5) 36px;
    padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
  }
  .left {
    display: grid;
    gap: var(--bench-space-4);
    align-content: start;
    min-width: 0;
  }
  h1 {
    margin: 0;
    font: var(--bench-font-say);
  }
  h2 {
    margin: 0 0 var(--bench-space-2);
    font: var(--bench-font-head);
  }
  .case {
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-case);
    background: var(--bench-plate);
  }
  .case bench-picture {
    padding-inline: var(--bench-space-4);
  }
  .slots {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(200px, 1fr));
    gap: var(--bench-space-2);
    margin: 0;
    padding: var(--bench-space-4) 0;
    list-style: none;
  }
  .slots a {
    display: grid;
    justify-items: center;
    height: 100%;
    align-content: start;
    padding: var(--bench-space-3) var(--bench-space-1);
    color: var(--bench-ink);
    text-align: center;
    text-decoration: none;
  }
  .slots a:hover,
  .slots [data-bench] a {
    background: var(--bench-sunk);
  }
  bench-blade-map {
    width: min(72px, 100%);
    min-height: 156px;
    pointer-events: none;
  }
  .slots img {
    width: min(100%, 216px);
    height: auto;
  }
  .bars {
    width: 56px;
    height: 6px;
    border-block: 2px solid transparent;
  }
  .bars[data-favourite] {
    border-color: var(--bench-favourite);
  }
  .label {
    margin-top: var(--bench-space-2);
    font: var(--bench-font-aside);
    white-space: nowrap;
  }
  .fact {
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .arch {
    display: block;
    width: 28px;
    height: 120px;
    margin: var(--bench-space-3) auto 0;
    border: 1.5px solid var(--bench-rule2);
    border-bottom: 0;
    border-radius: 14px 14px 0 0;
  }
  .empty {
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
    text-align: center;
  }
  .foot {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-2) var(--bench-space-4);
    justify-content: space-between;
    margin: 0 var(--bench-space-4);
    padding: var(--bench-space-3) 0;
    border-top: 1px solid var(--bench-rule);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .foot a {
    color: inherit;
    text-underline-offset: 3px;
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3);
    align-items: center;
  }
  .acts a {
    display: inline-flex;
    align-items: center;
    min-height: var(--bench-touch);
    padding: 0 var(--bench-space-4);
    border: 1px solid var(--bench-rule2);
    border-radius: var(--bench-radius-button);
    color: var(--bench-ink);
    text-decoration: none;
  }
  .ways {
    display: flex;
    flex-wrap: wrap;
    gap: 0 var(--bench-space-4);
  }
  .ways a {
    display: inline-flex;
    align-items: center;
    min-height: var(--bench-touch);
    color: var(--bench-ink2);
    text-underline-offset: 3px;
  }
  .clear {
    display: flex;
    gap: var(--bench-space-2);
    align-items: center;
    margin-left: auto;
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  .clear button {
    padding: 0;
    border: 0;
    font: inherit;
    color: var(--bench-ink2);
    text-decoration: underline;
    text-underline-offset: 3px;
  }
  .spines summary {
    font: var(--bench-font-head);
  }
  .first {
    display: grid;
    gap: var(--bench-space-4);
    justify-items: center;
    padding: var(--bench-space-6) var(--bench-space-4);
    text-align: center;
  }
  .first .quiet {
    border: 0;
    color: var(--bench-ink2);
    text-decoration: underline;
    text-underline-offset: 3px;
  }
  .first p {
    max-width: 30em;
    margin: 0;
    font: var(--bench-font-say);
  }
  @media (max-width: 860px) {
    .page {
      grid-template-columns: minmax(0, 1fr);
    }
    .slots {
      grid-template-columns: repeat(3, minmax(0, 1fr));
      padding: var(--bench-space-2) 0;
    }
    .slots bench-blade-map {
      width: 44px;
      min-height: 96px;
    }
    .slots:has(> :nth-child(9)) {
      grid-template-columns: repeat(4, minmax(0, 1fr));
    }
    .arch {
      height: 84px;
    }
    .slots li[data-empty]:nth-child(n + 5) {
      display: none;
    }
  }
  /* More than the eight of one lid stand closer. */
  @media (min-width: 1201px) {
    .slots:has(> :nth-child(9)) {
      grid-template-columns: repeat(auto-fill, minmax(124px, 1fr));
    }
  }
  /* A tablet held across. */
  @media (min-width: 861px) and (max-width: 1200px) {
    .page {
      grid-template-columns: minmax(0, 1fr) 300px;
      column-gap: var(--bench-space-5);
    }
    .slots {
      grid-template-columns: repeat(4, minmax(0, 1fr));
      padding: var(--bench-space-3) var(--bench-space-2);
    }
  }
  @media (forced-colors: active) {
    .bars:not([data-favourite]) {
      border-color: Canvas;
    }
  }
`;
