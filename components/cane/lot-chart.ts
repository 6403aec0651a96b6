import { scaleLinear } from 'd3-scale';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { WishedGouge } from '../../shared/settings.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { PieceColumn } from '../../src/cane/lot-pieces.ts';
import {
  COVERAGE,
  differenceFigure,
  joined,
  NO_FIGURE,
  thicknessFigure,
  UNIT_WORDS,
  type NumberFormat,
} from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { figureText } from '../figure-text.ts';
import { hrefOf } from '../frame/routes.ts';
import { linePath } from '../marks/lines.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, textures, whisker, type Scale } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { markKey, sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { PieceChosenEvent } from './piece-chosen-event.ts';
import { HEIGHT, pieceColumn, ROWS, SHOWN_FROM_MM } from './piece-column.ts';

const LEFT = { wide: 150, narrow: 52 };
const NARROW_PX = 600;
const LEAST_COLUMN_PX = 34;
/** The middle is drawn over at least this much to each side of what is wished. */
const LEAST_REACH_MM = 0.012;

const KEY = [
  [mark('over', 0, 0), 'over your limit'],
  [mark('near', 0, 0), 'perhaps over: inside its doubt'],
  [svg`<path class="line dashed" d="M-12 0H12"></path>`, 'wished'],
  [svg`<path class="line limit" d="M-12 0H12"></path>`, 'limit'],
  [svg`<rect class="drawer" x="-11" y="-4" width="22" height="8"></rect>`, 'in the drawer'],
  [svg`<rect class="solid" x="-11" y="-4" width="22" height="8"></rect>`, 'reed, alive'],
  [svg`<rect class="outline dashed" x="-11" y="-4" width="22" height="8"></rect>`, 'blank'],
  [svg`<rect class="outline" x="-11" y="-4" width="22" height="8"></rect>`, 'ended'],
  [svg`<path class="outline" d="M-11 0H11M-4 4L4 -4"></path>`, 'thrown'],
] as const;

/** The pieces of a lot on one axis: the gouge at the middle, its sides, the cut across, and what became of each. */
@customElement('bench-lot-chart')
export class LotChart extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      .cut {
        stroke: var(--bench-ink);
        stroke-width: 1.8;
        stroke-linejoin: round;
      }
      .cane {
        shape-rendering: crispedges;
        forced-color-adjust: none;
      }
      .chosen {
        fill: var(--bench-sunk);
      }
      .solid {
        fill: var(--bench-ink);
      }
      .drawer {
        fill: var(--bench-ink2);
      }
      .outline {
        stroke: var(--bench-ink);
        stroke-width: 1.2;
      }
      .outline.dashed {
        stroke-dasharray: 3 2.5;
      }
    `,
  ];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);

  @property({ attribute: false }) columns: readonly PieceColumn[] = [];
  @property({ attribute: false }) wished: WishedGouge | undefined;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  @property() code = '';
  @property() chosenId = '';

  constructor() {
    super();
    this.walk.onCome = ({ id }) => this.dispatchEvent(new PieceChosenEvent(id));
  }

  private get caption(): string {
    return `Lot ${this.code}, piece by piece: thickness at the middle, side 1 less side 2, the cut across, what became of it; ${UNIT_WORDS[this.writing.unit].caption}, ± is 95 %`;
  }

  override render() {
    const { wished } = this;
    const { width } = this.size;
    if (!wished || width === 0) return nothing;
    const left = LEFT[width < NARROW_PX ? 'narrow' : 'wide'];
    const columns = this.columns.slice(-Math.max(4, Math.floor((width - left) / LEAST_COLUMN_PX)));
    const x = scaleLinear([-0.5, columns.length - 0.5], [left, width - 8]);
    return html`<bench-picture caption=${this.caption} file-name=${`lot ${this.code}`}>
      ${this.renderChart(columns, x, wished)} ${markKey(KEY)} ${this.renderTable()}
    </bench-picture>`;
  }

  private renderChart(columns: readonly PieceColumn[], x: Scale, wished: WishedGouge) {
    const { width } = this.size;
    const [middles, apart] = [columns.map((one) => one.centre), columns.map((one) => one.sideDifference)];
    const centre = scaleOf(middles, wished.centreMm, LEAST_REACH_MM, ROWS.centre);
    const sides = scaleOf(apart, 0, wished.mostSideDifferenceMm * 1.3, ROWS.sides);
    const stops = columns.map((one, k) => this.stop(one, x(k)));
    this.walk.groups = stops.map((stop) => [stop]);
    const card = this.walk.shown;
    const chosen = columns.findIndex(({ piece }) => piece.id === this.chosenId);
    return html`<svg
      part="picture"
      role="group"
      aria-label=${`${this.caption}. Arrow keys go from piece to piece.`}
      width=${width}
      height=${HEIGHT}
      viewBox="0 0 ${width} ${HEIGHT}"
    >
      ${textures}
      ${chosen < 0 ? nothing : svg`<rect class="chosen" x=${x(chosen - 0.5)} y="0" width=${x(1) - x(0)} height=${HEIGHT}></rect>`}
      ${this.renderLevels(x, centre, sides, wished, width < NARROW_PX)}
      ${this.renderLines(columns, x, centre, sides)} ${this.renderDots(columns, x, centre, sides)}
      ${columns.map((one, k) => this.walk.wrap(stops[k]!, pieceColumn(one, { middle: x(k), pitch: x(1) - x(0) }, wished)))}
      ${card ? markCard(card, { width, height: HEIGHT }) : nothing}
    </svg>`;
  }

  private figures({ centre, sideDifference }: PieceColumn): readonly [string, string] {
    return [
      centre ? joined(thicknessFigure(centre, this.writing)) : NO_FIGURE,
      sideDifference ? joined(differenceFigure(sideDifference, this.writing)) : NO_FIGURE,
    ];
  }

  private stop(one: PieceColumn, x: number): Stop {
    const [centre, sides] = this.figures(one);
    const { piece, fate, reed } = one;
    const became = [reed?.label, fate, piece.reason].filter(Boolean).join(', ');
    const lines = [`piece ${piece.number}`, `middle ${centre}`, `side 1 less side 2 ${sides}`, became];
    const href = hrefOf({ at: 'cane', shown: { kind: 'piece', id: piece.id } });
    // Begins with what is written under the column, so that it is found by its words.
    const name = reed
      ? `${unbroken(reed.label)} ${lines[0]}`
      : [lines[0], piece.reason].filter(Boolean).join(' ');
    const words = `${[name, ...lines.slice(1, -1), fate].join('; ')}. Opens the piece.`;
    return { id: piece.id, lines, words, href, x, y: ROWS.fate - 6 };
  }

  private renderLevels(x: Scale, centre: Scale, sides: Scale, wished: WishedGouge, narrow: boolean) {
    const [left, right] = x.range() as [number, number];
    const limit = wished.mostSideDifferenceMm;
    const text = (mm: number) => figureText(mm, this.writing);
    const level = (
      y: number,
      name: string,
      words: string,
    ) => svg`<path class=${name} d=${`M${left} ${y}H${right}`}></path>
      <text x=${left - 8} y=${y} text-anchor="end">${words}</text>`;
    const heading = (y: number, name: string, under: string) =>
      narrow
        ? nothing
        : svg`<text class="strong" x="0" y=${y}>${name}</text><text x="0" y=${y + 17}>${under}</text>`;
    return svg`${level(centre(wished.centreMm), 'line dashed', text(wished.centreMm))}
      ${level(sides(0), 'hair', '0')} ${level(sides(limit), 'line limit', text(limit))} ${level(sides(-limit), 'line limit', text(-limit))}
      ${heading(ROWS.centre[0] + 22, 'Middle', `wished ${text(wished.centreMm)}`)}
      ${heading(ROWS.sides[0] + 20, 'Side 1', 'less side 2')}
      ${heading(ROWS.cut[0] + 16, 'Cut across', `from the cork, shown`)}
      ${narrow ? nothing : svg`<text x="0" y=${ROWS.cut[0] + 50}>from ${text(SHOWN_FROM_MM)}</text>`}
      ${heading(ROWS.fate + 6, 'Became', '')}`;
  }

  private renderLines(columns: readonly PieceColumn[], x: Scale, centre: Scale, sides: Scale) {
    const line = (pick: (one: PieceColumn) => Estimate | undefined, y: Scale) =>
      linePath(
        columns.flatMap((one, k) => [
          ...(one.isAnew ? [{ at: k - 0.5 }] : []),
          { at: k, value: pick(one)?.valueMm },
        ]),
        x,
        y,
      );
    return svg`${columns.map((one, k) =>
      one.isAnew
        ? svg`<path class="line thin" d=${`M${x(k - 0.5)} 0V${ROWS.cut[1]}`}></path>
        <text class="haloed" x=${x(k - 0.5) + 5} y="8">set anew</text>`
        : nothing,
    )}
      <path class="line thin" d=${line((one) => one.centre, centre)}></path><path class="line thin" d=${line((one) => one.sideDifference, sides)}></path>`;
  }

  private renderDots(columns: readonly PieceColumn[], x: Scale, centre: Scale, sides: Scale) {
    const limit = this.wished!.mostSideDifferenceMm;
    const sideKind = ({ judged, sideDifference }: PieceColumn) => {
      if (judged === 'too different') return 'over';
      return judged === 'doubtful' && Math.abs(sideDifference?.valueMm ?? 0) > limit ? 'near' : 'sure';
    };
    const dot = (found: Estimate | undefined, at: number, y: Scale, kind: 'sure' | 'over' | 'near') => {
      if (!found) return nothing;
      const half = COVERAGE * found.uMm;
      return svg`${whisker(at, y(found.valueMm + half), y(found.valueMm - half))}${mark(kind, at, y(found.valueMm))}`;
    };
    return columns.map(
      (one, k) =>
        svg`${dot(one.centre, x(k), centre, 'sure')}${dot(one.sideDifference, x(k), sides, sideKind(one))}`,
    );
  }

  private renderTable() {
    return sameAsTable({
      caption: this.caption,
      heads: ['Piece', 'Middle', 'Side 1 less side 2', 'Limit', 'Reed', 'What became of it', 'Gouged'],
      rows: this.columns.map((one) => {
        const { piece, reed, fate, judged } = one;
        return [
          html`<a href=${hrefOf({ at: 'cane', shown: { kind: 'piece', id: piece.id } })}>${piece.number}</a>`,
          ...this.figures(one),
          judged ?? NO_FIGURE,
          reed
            ? html`<a href=${hrefOf({ at: 'bench', reedId: reed.id, question: 'there' })}
                >${unbroken(reed.label)}</a
              >`
            : NO_FIGURE,
          [fate, piece.reason].filter(Boolean).join(', '),
          piece.gougedOn ? dayWords(piece.gougedOn) : NO_FIGURE,
        ];
      }),
    });
  }
}

function scaleOf(
  estimates: readonly (Estimate | undefined)[],
  around: number,
  least: number,
  [top, bottom]: readonly [number, number],
): Scale {
  const reach = estimates.flatMap((one) =>
    one ? [Math.abs(one.valueMm - around) + COVERAGE * one.uMm] : [],
  );
  const most = Math.max(least, ...reach);
  return scaleLinear([around - most, around + most], [bottom, top]);
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-lot-chart': LotChart;
  }
}
