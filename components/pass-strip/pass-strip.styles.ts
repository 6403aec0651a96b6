import { css } from 'lit';

export const styles = css`
  nav {
    container-type: inline-size;
    font: var(--bench-font-caption);
  }
  ol {
    display: flex;
    margin: 0;
    padding: 0;
    list-style: none;
  }
  li {
    position: relative;
    flex: 1 1 0;
    min-width: 64px;
  }
  li::before {
    position: absolute;
    top: 8px;
    right: 0;
    left: 6px;
    border-top: 1.5px solid var(--bench-rule2);
    content: '';
  }
  li:last-child::before {
    border-top-color: var(--bench-ink);
  }
  a {
    position: relative;
    display: block;
    min-height: var(--bench-touch);
    padding-right: var(--bench-space-3);
    color: var(--bench-ink);
    font: var(--bench-font-caption);
    text-decoration: none;
  }
  svg {
    display: block;
    width: 22px;
    height: 18px;
    margin-left: -4px;
    overflow: visible;
  }
  circle {
    fill: var(--bench-paper);
    stroke: var(--bench-rule2);
    stroke-width: 2;
  }
  [data-role='before'] circle,
  .ring {
    stroke: var(--bench-ink);
  }
  .dot {
    fill: var(--bench-ink);
    stroke: none;
  }
  .clip {
    position: absolute;
    top: 0;
    left: -26px;
    stroke: var(--bench-ink);
    stroke-width: 1.6;
  }
  .line {
    display: block;
  }
  .done {
    color: var(--bench-ink2);
  }
  .heard {
    color: var(--bench-ink2);
    font-family: var(--bench-serif);
    font-style: italic;
  }
  @media (max-width: 1200px) {
    /* Out of sight, not out of hearing. */
    .heard {
      position: absolute;
      width: 1px;
      height: 1px;
      overflow: hidden;
      clip-path: inset(50%);
    }
    /* One line each, so that the whole of the blades stays in sight. */
    .line {
      overflow: hidden;
      text-overflow: ellipsis;
      white-space: nowrap;
    }
  }
  /* As little room as that, by the size of the text. */
  @container (max-width: 48em) {
    .facts,
    .done {
      position: absolute;
      width: 1px;
      height: 1px;
      overflow: hidden;
      clip-path: inset(50%);
    }
    li {
      min-width: 48px;
    }
  }
`;
