import { css } from 'lit';

export const lifeStyles = css`
  :host {
    min-width: 0;
  }
  .scroll {
    overflow-x: auto;
  }
  /* As wide as the page, never narrower than its pictures can be read, nor wider than makes them large. */
  table {
    width: min(100%, calc(100px + var(--columns, 1) * 230px));
    min-width: calc(100px + var(--columns, 1) * 172px);
    table-layout: fixed;
  }
  caption {
    caption-side: bottom;
    padding-top: var(--bench-space-2);
  }
  th,
  td,
  td:first-child {
    padding: 2px var(--bench-space-2);
    text-align: center;
    vertical-align: top;
  }
  th {
    width: 92px;
    padding-left: 0;
    text-align: left;
  }
  .room td,
  .room th,
  .pictures td,
  .words td,
  .words th {
    border-bottom: 0;
  }
  .room td {
    padding: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .room svg {
    display: block;
    width: 100%;
  }
  .room path {
    fill: none;
    stroke: var(--bench-ink2);
    stroke-width: 2;
  }
  .room circle {
    fill: var(--bench-ink);
  }
  .pictures td {
    vertical-align: bottom;
  }
  .picture {
    display: flex;
    align-items: flex-end;
    text-decoration: none;
  }
  .picture > * {
    flex: 1 1 0;
    min-width: 0;
  }
  .unread {
    align-self: center;
    color: var(--bench-ink3);
    font: var(--bench-font-caption);
  }
  .words td {
    padding-bottom: var(--bench-space-2);
    font: var(--bench-font-caption);
    text-align: left;
  }
  .words em,
  .say {
    display: block;
    font: var(--bench-font-aside);
  }
  .words em {
    font-style: italic;
  }
  .say {
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  .clip {
    margin-right: var(--bench-space-1);
    font-weight: 600;
  }
  .sure {
    background: color-mix(in srgb, var(--bench-excess) 20%, transparent);
  }
  small {
    color: var(--bench-ink2);
    font-size: 0.85em;
  }
  .legends {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-3) var(--bench-space-5);
    align-items: center;
    margin-top: var(--bench-space-3);
  }
  .legends bench-map-legend {
    flex: 0 1 260px;
  }
  .legends p {
    margin: 0;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  @media (max-width: 640px) {
    th {
      width: 76px;
    }
    .words th {
      font: var(--bench-font-caption);
    }
  }
  @media print {
    .scroll {
      overflow: visible;
    }
    table {
      width: min(100%, calc(100px + var(--columns, 1) * 150px));
      min-width: 0;
      font-size: 10px;
      print-color-adjust: exact;
    }
    th,
    td,
    td:first-child {
      padding: 0 4px;
    }
    .words td,
    .words em,
    .say {
      font-size: 9px;
      line-height: 1.25;
    }
    .early {
      display: none;
    }
  }
`;
