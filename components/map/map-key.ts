import { css, html, svg, type SVGTemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BenchElement } from '../theme/bench-element.ts';
import { bandColour } from './colour-layer.ts';
import { PATTERNS } from './blade-layers.ts';
import { textures } from './blade-map.styles.ts';

/** A mark on the maps that a key explains. */
export type KeyMark =
  | 'from-tip'
  | 'from-thread'
  | 'lozenge'
  | 'more'
  | 'less'
  | 'bare'
  | 'variety'
  | 'between'
  | 'whole'
  | 'beyond'
  | 'next-strokes'
  | 'painted'
  | 'clipped';

export interface KeyEntry {
  readonly mark: KeyMark;
  readonly words: string;
}

const swatch = (pattern: string, valueMm?: number) =>
  svg`<rect x="1" y="2" width="20" height="14" fill=${valueMm ? bandColour('difference', valueMm) : 'none'}></rect>
    <rect x="1" y="2" width="20" height="14" fill=${`url(#${pattern})`}></rect>`;

const SWATCHES: Readonly<Record<KeyMark, SVGTemplateResult>> = {
  'from-tip': svg`<path class="line" d="M0 9H28"></path>`,
  'from-thread': svg`<path class="line dotted" d="M0 9H28"></path>`,
  lozenge: svg`<path class="lozenge" d="M11 2L18 9L11 16L4 9Z"></path>`,
  more: swatch('hatch', 0.045),
  less: swatch('rings', -0.045),
  bare: swatch('dots'),
  variety: swatch('variety'),
  between: swatch('between'),
  whole: swatch('whole'),
  beyond: swatch('beyond'),
  'next-strokes': svg`<rect class="strokes" x="2" y="3" width="18" height="12"></rect>`,
  painted: svg`<rect class="painted" x="2" y="3" width="18" height="12"></rect>
    <path class="grain" d="M6 3v12M11 3v12M16 3v12"></path>`,
  clipped: svg`<path class="line rim" d="M2 16V5H20V16"></path>`,
};

/** Names what is drawn on a pair of maps: a small drawing and its words, in a list. */
@customElement('bench-map-key')
export class MapKey extends BenchElement {
  static override styles = [
    textures,
    css`
      ul {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-1) var(--bench-space-4);
        margin: 0;
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
      svg {
        flex: none;
        forced-color-adjust: none;
        fill: none;
      }
      .line {
        stroke: var(--bench-ink);
        stroke-width: 1.2;
      }
      .dotted,
      .rim {
        stroke-dasharray: 1.2 3.2;
        stroke-linecap: round;
      }
      .lozenge {
        stroke: var(--bench-excess);
        stroke-width: 1.9;
      }
      .strokes,
      .painted {
        stroke: var(--bench-ink);
        stroke-width: 2.4;
      }
      .painted {
        fill: var(--bench-strokes);
      }
      .grain {
        stroke: var(--bench-ink);
        stroke-width: 0.8;
      }
    `,
  ];

  @property({ attribute: false }) entries: readonly KeyEntry[] = [];

  override render() {
    return html`<ul>
      ${this.entries.map(
        ({ mark, words }) =>
          html`<li>
            <svg
              part="picture"
              viewBox="0 0 ${mark.startsWith('from') ? 28 : 22} 18"
              width=${mark.startsWith('from') ? 28 : 22}
              height="18"
              aria-hidden="true"
            >
              <defs>${PATTERNS}</defs>
              ${SWATCHES[mark]}
            </svg>
            <span part="words">${words}</span>
          </li>`,
      )}
    </ul>`;
  }
}
