import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BLADES } from '../../shared/blade.ts';
import type { LessonDifference } from '../../src/plan/lesson.ts';
import { differenceFigure, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import type { Plate } from '../bench/plate-data.ts';
import { bladeDrawing } from '../map/blade-drawing.ts';
import '../map/blade-map.ts';
import { marks } from '../marks/marks.styles.ts';
import { WidthController } from '../marks/width-controller.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** Shares of the width that a pair of blades has, beside and under the differences. */
const PAIR = { wide: 0.28, narrow: 0.5 };
/** Narrower, the differences stand above the reeds. */
const WIDE_PX = 860;
const GAP = { blades: 8, middle: 12 };
/** Size of the differences: read from two metres where there is room for it, `FAR_PX`. */
const LETTERS_ACROSS = 10;
const ROW = 1.36;
/** Room for the way from a difference to its zones, CSS pixels. */
const WAY_PX = 36;

/**
 * The least size of letters that are read from two metres, CSS pixels of a 96th of an inch: capitals, 0.716 of it high, are
 * seen under 16 minutes of arc. Source: ISO 9241-303, least height of characters, from memory.
 */
export const FAR_PX = 50;

/** One of the two: what it is called and how it looks; a usual reed where none is chosen. */
export interface Shown {
  readonly label: string;
  readonly plate: Plate;
  readonly isUsual?: boolean;
}

/** Two reeds, large, and between them what parts them the most, each with a way to where it lies on both. */
@customElement('bench-lesson-pair')
export class LessonPair extends BenchElement {
  static override styles = [
    marks,
    css`
      :host {
        display: grid;
        grid-template-columns: 28% minmax(0, 1fr) 28%;
        gap: 12px;
        min-width: 0;
      }
      figure {
        min-width: 0;
        margin: 0;
      }
      figcaption {
        overflow-wrap: anywhere;
        font: calc(50px * var(--bench-scale)) / 1.1 var(--bench-serif);
        text-align: center;
      }
      .blades {
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: 8px;
      }
      .usual {
        opacity: 0.5;
      }
      .middle p {
        margin: 0;
        color: var(--bench-ink2);
        font: calc(24px * var(--bench-scale)) / 55px var(--bench-sans);
        text-align: center;
      }
      .middle .words {
        line-height: 1.4;
      }
      text.far {
        fill: var(--bench-ink);
        font-size: var(--far);
      }
      .far .value {
        font-weight: 600;
      }
      .far .doubt {
        fill: var(--bench-ink2);
        font-size: 0.6em;
      }
      .way {
        stroke: var(--bench-ink2);
        stroke-width: 1.6;
      }
      .stretch {
        stroke: var(--bench-ink);
        stroke-width: 4;
      }
      @media (max-width: 900px) {
        :host {
          grid-template-columns: 1fr 1fr;
        }
        .middle {
          grid-column: 1 / -1;
          order: -1;
        }
        .middle p {
          font: var(--bench-font-body);
        }
        figcaption {
          font: var(--bench-font-reed);
        }
      }
    `,
  ];

  private readonly size = new WidthController(this);

  @property({ attribute: false }) own: Shown | undefined;
  @property({ attribute: false }) example: Shown | undefined;
  @property({ attribute: false }) differences: readonly LessonDifference[] = [];
  /** Stands between them where there are no differences to show. */
  @property() words = '';
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  private get lengthMm(): number {
    return Math.max(
      ...[this.own, this.example].flatMap((one) =>
        Object.values(one?.plate ?? {}).map(({ bladeLengthMm }) => bladeLengthMm),
      ),
    );
  }

  override render() {
    const { own, example } = this;
    if (!own || !example) return nothing;
    return html`${this.renderReed(own)} ${this.renderMiddle(own, example)} ${this.renderReed(example)}`;
  }

  private renderReed({ label, plate, isUsual }: Shown) {
    return html`<figure class=${isUsual ? 'usual' : ''}>
      <figcaption part="words">${unbroken(label)}</figcaption>
      <div class="blades">
        ${BLADES.flatMap((blade) => {
          const data = plate[blade];
          return data
            ? html`<bench-blade-map
                plain
                .data=${data}
                .lengthMm=${this.lengthMm}
                label=${`Blade ${blade} of ${label}: thickness`}
              ></bench-blade-map>`
            : [];
        })}
      </div>
    </figure>`;
  }

  private renderMiddle(own: Shown, example: Shown) {
    const { differences, words, writing } = this;
    const { width } = this.size;
    const head = `${own.label} less ${example.label}, ${UNIT_WORDS[writing.unit].caption}`;
    return html`<div class="middle">
      <p part="words" class=${differences.length > 0 ? '' : 'words'}>
        ${differences.length > 0 ? unbroken(head) : unbroken(words)}
      </p>
      ${differences.length > 0 && width > 0 ? this.renderDifferences(own, example, head) : nothing}
    </div>`;
  }

  private renderDifferences(own: Shown, example: Shown, head: string) {
    const { differences, writing } = this;
    const total = this.size.width;
    const isWide = total >= WIDE_PX;
    const pair = total * PAIR.wide;
    const width = isWide ? total - 2 * pair - 2 * GAP.middle : total;
    const letters = Math.min(FAR_PX, (width - (isWide ? 2 * WAY_PX : 0)) / LETTERS_ACROSS);
    const edge = isWide ? WAY_PX : 0;
    const [left, right] = [own, example].map(({ plate }) =>
      placeOn(plate, this.lengthMm, (pair - GAP.blades) / 2),
    );
    const height = isWide ? left!.height : differences.length * letters * ROW;
    const rows = spread(
      differences.map(({ ownMm: [from, to] }, k) =>
        isWide ? left!.y((from + to) / 2) : (k + 0.5) * letters * ROW,
      ),
      letters * ROW,
      height,
    );
    const said = differences.map(
      ({ title, difference }) => `${title} ${differenceFigure(difference, writing).value}`,
    );
    this.style.setProperty('--far', `${letters.toFixed(1)}px`);
    return html`<svg
      part="picture"
      role="img"
      aria-label=${`${head}: ${said.join(', ')}`}
      width=${width}
      height=${height}
      viewBox="0 0 ${width} ${height}"
    >
      ${differences.map(({ title, difference, ownMm, otherMm }, k) => {
        const { value, doubt } = differenceFigure(difference, writing);
        const y = rows[k]!;
        return svg`${isWide ? [way(2, edge, ownMm.map(left!.y), y), way(width - 2, width - edge, otherMm.map(right!.y), y)] : nothing}
          <text class="far" x=${edge + 8} y=${y}>${title}</text>
          <text class="far" x=${width - edge - 8} y=${y} text-anchor="end"><tspan class="value">${value}</tspan> <tspan class="doubt">${doubt}</tspan></text>`;
      })}
    </svg>`;
  }
}

/** Where distances stand on a drawn pair of blades of this width. */
function placeOn(plate: Plate, lengthMm: number, widthPx: number) {
  const grid = plate.A ?? plate.B!;
  const drawing = bladeDrawing(grid, lengthMm);
  const scale = widthPx / drawing.width;
  return { height: drawing.height * scale, y: (mm: number) => drawing.y(mm) * scale };
}

/** From a difference to the stretch of its zone, at the side of the picture. */
function way(edge: number, from: number, [top, bottom]: readonly number[], y: number) {
  return svg`<path class="way" d=${`M${from} ${y}L${edge} ${(top! + bottom!) / 2}`}></path>
    <path class="stretch" d=${`M${edge} ${top}V${bottom}`}></path>`;
}

/** Rows at the heights wished for, in their order, moved so far that none is over another or beyond the height. */
function spread(wished: readonly number[], row: number, height: number): number[] {
  const rows: number[] = [];
  for (const y of wished) rows.push(Math.max(y, (rows.at(-1) ?? -row / 2) + row));
  for (let k = rows.length - 1, most = height - row / 2; k >= 0; k--, most -= row)
    rows[k] = Math.min(rows[k]!, most);
  return rows;
}
