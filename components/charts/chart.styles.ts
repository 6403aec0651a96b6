import { css } from 'lit';

export const styles = css`
  svg {
    display: block;
    width: 100%;
    height: auto;
    overflow: visible;
    fill: none;
  }
  text {
    fill: var(--bench-ink3);
    font: 12px var(--bench-sans);
    dominant-baseline: central;
  }
  .hair {
    stroke: var(--bench-rule);
  }
  .rule {
    stroke: var(--bench-rule2);
  }
  .line {
    stroke-width: 2;
    stroke-linejoin: round;
  }
  .line.A {
    stroke: var(--bench-blade-a);
  }
  .line.B {
    stroke: var(--bench-blade-b);
    stroke-dasharray: 8 4;
  }
  .line.before {
    stroke: var(--bench-ink3);
    stroke-width: 2.2;
    stroke-dasharray: 1.5 4;
    stroke-linecap: round;
  }
  .line.before.age-2 {
    stroke-dasharray: 1.5 7;
  }
  .line.before.age-3 {
    stroke-dasharray: 1.5 4 1.5 10;
  }
  .line.before.age-4 {
    stroke-dasharray: 1.5 13;
  }
  .line.after {
    stroke: var(--bench-ink);
    stroke-width: 2.4;
  }
  .line.favourite {
    stroke: var(--bench-favourite);
    stroke-width: 4.6;
  }
  .line.core {
    stroke: var(--bench-paper);
    stroke-width: 1.9;
  }
  .line.floor {
    stroke: var(--bench-ink);
    stroke-width: 1.3;
  }
  .teeth {
    stroke: var(--bench-ink2);
    stroke-width: 0.9;
  }
  .doubt {
    opacity: 0.16;
  }
  .doubt.A {
    fill: var(--bench-blade-a);
  }
  .doubt.B {
    fill: var(--bench-blade-b);
  }
  .doubt.before,
  .doubt.after {
    fill: var(--bench-ink);
  }
  .doubt.favourite {
    fill: var(--bench-favourite);
  }
  .reading {
    fill: var(--bench-ink);
    stroke: var(--bench-paper);
  }
  .reading.A {
    fill: var(--bench-blade-a);
  }
  .reading.B {
    fill: var(--bench-paper);
    stroke: var(--bench-blade-b);
    stroke-width: 1.4;
  }
  .band {
    fill: var(--bench-favourite);
    fill-opacity: 0.16;
    stroke: var(--bench-favourite);
  }
  .upright {
    stroke: var(--bench-favourite);
    stroke-width: 0.8;
  }
  .crossing path {
    stroke: var(--bench-ink);
    stroke-width: 1;
    stroke-dasharray: 1.4 2.6;
  }
  .crossing text {
    fill: var(--bench-ink);
    stroke: var(--bench-paper);
    stroke-width: 3;
    paint-order: stroke;
    font-weight: 600;
  }
  .crossing text.favourite {
    text-decoration: underline double var(--bench-favourite);
  }
  ul {
    display: flex;
    flex-wrap: wrap;
    gap: var(--bench-space-1) var(--bench-space-4);
    margin: var(--bench-space-1) 0 0;
    padding: 0;
    list-style: none;
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
  li {
    display: flex;
    gap: var(--bench-space-2);
    align-items: center;
  }
  li svg {
    flex: none;
    width: 30px;
  }
  details {
    overflow-x: auto;
    margin-top: var(--bench-space-2);
    color: var(--bench-ink2);
    font: var(--bench-font-caption);
  }
`;
