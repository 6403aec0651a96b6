import { scaleLinear } from 'd3-scale';
import { css, html, LitElement, nothing, svg } from 'lit';
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
import { bandColour } from '../map/colour-layer.ts';
import { linePath } from '../marks/lines.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, textures, whisker, type Scale } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { markKey, sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { base, tables } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { PieceChosenEvent } from './piece-chosen-event.ts';

const ROWS = { centre: [10, 70], sides: [84, 156], cut: [172, 242], fate: 258 } as const;
const HEIGHT = 312;
const LEFT = { wide: 150, narrow: 52 };
const NARROW_PX = 600;
const LEAST_COLUMN_PX = 34;
/** The cut is shown from this thickness. */
const SHOWN_FROM_MM = 0.3;
const STRIPS = 7;

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
export class LotChart extends LitElement {
  static override styles = [
    base,
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

  protected readonly theme = new ThemeController(this);
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
      ${columns.map((one, k) => this.walk.wrap(stops[k]!, this.renderColumn(one, x(k), x(1) - x(0), wished)))}
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

  private renderColumn(one: PieceColumn, middle: number, pitch: number, wished: WishedGouge) {
    const { piece, fate, reed } = one;
    const half = Math.min(24, pitch * 0.38);
    const wide = pitch > 52;
    const name = reed && wide ? unbroken(reed.label) : String(piece.number);
    return svg`<rect class="ring" x=${middle - pitch / 2} y="0" width=${pitch} height=${HEIGHT}></rect>
      ${this.renderCut(one, middle, half, wished)}
      <text class=${reed && wide ? 'reed' : 'strong'} x=${middle} y=${ROWS.fate + 6} text-anchor="middle">${name}</text>
      ${wide ? svg`<text x=${middle} y=${ROWS.fate + 24} text-anchor="middle">${reed ? `piece ${piece.number}` : wholeWords(piece.reason ?? '', pitch / 6.4)}</text>` : nothing}
      ${fateMark(fate, middle, half, ROWS.fate + 44)}`;
  }

  private renderCut({ centre, sides }: PieceColumn, middle: number, half: number, wished: WishedGouge) {
    if (!centre || !sides) return nothing;
    const y = scaleLinear([SHOWN_FROM_MM, 0.64], ROWS.cut);
    const found = parabola(sides.side1Mm, centre.valueMm, sides.side2Mm);
    const want = parabola(wished.sideMm, wished.centreMm, wished.sideMm);
    const path = (at: (share: number) => number) =>
      Array.from({ length: 17 }, (_, k) => {
        const share = k / 8 - 1;
        return `${k ? 'L' : 'M'}${(middle + share * half).toFixed(1)} ${y(at(share)).toFixed(1)}`;
      }).join('');
    return svg`<g class="cane">${Array.from({ length: STRIPS }, (_, k) => {
      const [from, to] = [(2 * k) / STRIPS - 1, (2 * (k + 1)) / STRIPS - 1];
      const mm = found((from + to) / 2);
      return svg`<path fill=${bandColour('thickness', mm)} d=${`M${middle + from * half} ${ROWS.cut[0]}H${middle + to * half}V${y(found(to))}L${middle + from * half} ${y(found(from))}Z`}></path>`;
    })}</g>
      <path class="line dashed" d=${path(want)}></path><path class="cut" d=${path(found)}></path>`;
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

/** As many whole words as have room for their letters. */
function wholeWords(text: string, letters: number): string {
  const parts = text.split(' ');
  while (parts.join(' ').length > letters) parts.pop();
  return parts.join(' ');
}

/** A curve through both sides and the middle, over a share of the half-width. */
function parabola(side1: number, middle: number, side2: number) {
  const [tilt, bend] = [(side2 - side1) / 2, (side1 + side2) / 2 - middle];
  return (share: number) => middle + tilt * share + bend * share * share;
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

function fateMark(fate: PieceColumn['fate'], middle: number, half: number, y: number) {
  if (fate === 'not judged') return nothing;
  if (fate === 'thrown')
    return svg`<path class="outline" d=${`M${middle - half} ${y}H${middle + half}M${middle - 5} ${y + 5}L${middle + 5} ${y - 5}`}></path>`;
  const name = { 'in the drawer': 'drawer', alive: 'solid', blank: 'outline dashed', ended: 'outline' }[fate];
  return svg`<path class=${name} d=${`M${middle - half} ${y - 4}H${middle - half / 3}L${middle + half} ${y - 6}V${y + 6}L${middle - half / 3} ${y + 4}H${middle - half}Z`}></path>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-lot-chart': LotChart;
  }
}
