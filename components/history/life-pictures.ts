import { html, nothing, svg, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BLADES } from '../../shared/blade.ts';
import type { Reed } from '../../shared/reed.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { takenByZone } from '../../src/answers/record/taken-tables.ts';
import type { Answer } from '../../src/answers/answer-words.ts';
import { sayTakenOff } from '../../src/answers/say-taken-off.ts';
import type { Figure } from '../../src/figures/figure.ts';
import { strokesWords } from '../../src/rotation/history.ts';
import { LEAST_CLIP_MM, type LifePass } from '../../src/rotation/life-strip.ts';
import {
  distanceText,
  NO_FIGURE,
  numberText,
  UNIT_WORDS,
  writtenFigure,
  type NumberFormat,
} from '../../src/words/format.ts';
import { removalPlate, thicknessPlate, type Plate } from '../bench/plate-data.ts';
import { TAKEN_ENDS } from '../bench/taken-plate.ts';
import '../figures-table/copy-table.ts';
import { figureName } from '../figures-table/laid-out.ts';
import { hrefOf } from '../frame/routes.ts';
import '../map/blade-map.ts';
import '../map/map-legend.ts';
import type { Quantity } from '../theme/ramp.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { tables } from '../theme/base.styles.ts';
import { lifeStyles } from './life-pictures.styles.ts';

/** A page holds so many passes with what went between them. */
const ON_A_PAGE = 4;
/** Of the room's line, drawing units: a column's width, the height, and the ends of its scale, per cent. */
const ROOM = { width: 180, height: 40, top: 6, bottom: 34, fromPct: 20, toPct: 80 };

interface Zone {
  readonly name: string;
  readonly title: string;
}

/** A column of the table: a pass, or what was taken off before one. */
interface Column {
  readonly kind: 'pass' | 'taken';
  readonly at: number;
  readonly plate: Plate;
  readonly figures: ReadonlyMap<string, readonly Figure[]>;
  readonly answer?: Answer;
}

/**
 * A reed's life in pictures, hung from the thread: the plate after each pass, what was taken off between, the trial's words
 * under it, the room above, and the figures of the zones in the same columns. Each picture leads to its pass; left and right
 * walk them.
 */
@customElement('bench-life-pictures')
export class LifePictures extends BenchElement {
  static override styles = [tables, lifeStyles];

  private columns: readonly Column[] = [];
  private zones: readonly Zone[] = [];

  @property({ attribute: false }) benched: FittedReed | undefined;
  @property({ attribute: false }) life: readonly LifePass[] = [];
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override willUpdate(changed: PropertyValues<this>) {
    const { benched } = this;
    if (!benched?.model || !(changed.has('benched') || changed.has('writing'))) return;
    this.columns = benched.passes.flatMap((_, at) => [
      ...(at > 0 ? [this.takenColumn(benched, at)] : []),
      this.passColumn(benched, at),
    ]);
    this.zones = figuresOf({ benched, pass: benched.passes.length - 1 }).zones;
  }

  private passColumn(benched: FittedReed, at: number): Column {
    const { rows } = figuresOf({ benched, pass: at }).table('zones');
    const figures = new Map(rows.map(({ name, figures: [mean] }) => [name, mean ? [mean] : []]));
    return { kind: 'pass', at, plate: thicknessPlate(benched, at), figures };
  }

  private takenColumn(benched: FittedReed, at: number): Column {
    const record = figuresOf({ benched, pass: at });
    const figures = new Map(takenByZone(record, at - 1).rows.map((row) => [row.name, row.figures] as const));
    const answer = sayTakenOff(benched, record.taken(at - 1), this.writing);
    return { kind: 'taken', at, plate: removalPlate(benched, at), figures, answer };
  }

  override updated() {
    this.style.setProperty('--columns', String(this.columns.length));
  }

  private handleKey(event: KeyboardEvent) {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    const pictures = [...this.renderRoot.querySelectorAll<HTMLElement>('a.picture')];
    const from = pictures.findIndex((one) => one.matches(':focus'));
    const to = step === undefined || from < 0 ? undefined : pictures[from + step];
    if (!to) return;
    event.preventDefault();
    to.focus();
  }

  override render() {
    const { benched, columns, writing } = this;
    if (!benched?.model) return nothing;
    const { caption } = UNIT_WORDS[writing.unit];
    return html`<div class="scroll" tabindex="0" role="region" aria-label="The passes, side by side">
        <table @keydown=${this.handleKey}>
          <caption>
            Mean of each zone and what went between, ${caption}; tinted where measurable, in brackets where
            not. Hung from the thread. ± is 95 %.
            <bench-copy></bench-copy>
          </caption>
          <tbody>
            <tr class="room">
              <th scope="row">The room</th>
              ${columns.map((column) => this.renderRoom(column))}
            </tr>
            <tr class="pictures">
              <td></td>
              ${columns.map((column) => this.renderPicture(benched.reed, column))}
            </tr>
            <tr class="words">
              <th scope="row">Done and heard</th>
              ${columns.map((column) => this.renderWords(column))}
            </tr>
            ${this.zones.map((zone) => this.renderZone(zone))}
          </tbody>
        </table>
      </div>
      ${this.renderLegends()}`;
  }

  private renderLegends() {
    const { writing } = this;
    return html`<div class="legends">
      ${(['thickness', 'difference'] as const).map(
        (quantity) =>
          html`<bench-map-legend
            .quantity=${quantity}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
            .ends=${quantity === 'difference' ? TAKEN_ENDS : undefined}
          ></bench-map-legend>`,
      )}
      <p>Dots: not measurable, or not read.</p>
    </div>`;
  }

  /** Columns that a printed page has no room for. */
  private early({ kind, at }: Column): string {
    const first = this.life.length - ON_A_PAGE;
    return at < first || (at === first && kind === 'taken') ? `${kind} early` : kind;
  }

  private renderPicture(reed: Reed, column: Column) {
    const { kind, at, plate } = column;
    const { pass } = this.life[at]!;
    const before = this.life[at - 1]?.pass.index;
    const isTaken = kind === 'taken';
    const name = isTaken ? `Taken off before pass ${pass.index}` : `Pass ${pass.index}`;
    const quantity: Quantity = isTaken ? 'difference' : 'thickness';
    const href = hrefOf({
      at: 'bench',
      reedId: reed.id,
      question: isTaken ? 'taken' : 'there',
      pass: pass.index,
      ...(isTaken && before !== undefined && { before }),
    });
    return html`<td class=${this.early(column)} colspan="2">
      <a class="picture" href=${href} aria-label=${name}>
        ${BLADES.map((blade) => {
          const data = plate[blade];
          return data
            ? html`<bench-blade-map
                plain
                aria-hidden="true"
                .data=${data}
                .quantity=${quantity}
                .lengthMm=${data.bladeLengthMm}
              ></bench-blade-map>`
            : html`<span class="unread">${blade}: not read</span>`;
        })}
      </a>
    </td>`;
  }

  private renderWords(column: Column) {
    const { pass, day, clipMm, overallMm, trial } = this.life[column.at]!;
    const { writing } = this;
    if (column.kind === 'taken') {
      const places = pass.scrape?.places ?? [];
      const strokes = places.map(strokesWords).join(', ');
      const clip = clipMm > LEAST_CLIP_MM ? `clip ${distanceText(clipMm, writing)}` : '';
      const done = [clip, strokes, pass.scrape?.accident].filter(Boolean).join('; ');
      return html`<td part="words" class=${this.early(column)} colspan="2">
        ${clip ? html`<span class="clip" aria-hidden="true">//</span>` : nothing}${done || 'nothing written'}
        <span class="say">${column.answer?.mind ?? column.answer?.say}</span>
      </td>`;
    }
    const { wetness, soakMin } = pass;
    const facts = [
      day === undefined ? '' : `day ${day}`,
      overallMm === undefined ? '' : distanceText(overallMm, writing),
      wetness ? `${wetness}${soakMin === undefined ? '' : ` ${numberText(soakMin, 0, writing)} min`}` : '',
    ];
    return html`<td part="words" class=${this.early(column)} colspan="2">
      <strong>Pass ${pass.index}</strong> ${facts.filter(Boolean).join(', ')}
      ${trial?.words ? html`<em>${trial.words}</em>` : nothing}
    </td>`;
  }

  private renderZone({ name, title }: Zone) {
    return html`<tr>
      <th scope="row" part="words">${title}</th>
      ${this.columns.map((column) => {
        const figures = column.figures.get(name) ?? [];
        const span = column.kind === 'pass' ? 2 : 1;
        const shown = column.kind === 'pass' ? figures.slice(0, 1) : figures.slice(0, 2);
        if (shown.length === 0) return html`<td class=${this.early(column)} colspan="2">${NO_FIGURE}</td>`;
        return shown.map((figure) => this.renderFigure(figure, this.early(column), span));
      })}
    </tr>`;
  }

  private renderFigure(figure: Figure, columnClass: string, span: number) {
    const text = writtenFigure(figure, this.writing);
    const isSure =
      typeof text === 'object' && 'value' in text && columnClass.startsWith('taken') && !text.inDoubt;
    return html`<td
      part="words"
      class=${isSure ? `${columnClass} sure` : columnClass}
      colspan=${span}
      data-figure=${figureName(figure)}
    >
      ${typeof text === 'string' ? text : 'value' in text ? html`${text.value} <small>${text.doubt}</small>` : html`<span title=${text.none}>${NO_FIGURE}</span>`}
    </td>`;
  }

  /** A stretch of the room's line: of a pass its own point, between two passes the way from one to the next. */
  private renderRoom(column: Column) {
    const { at, kind } = column;
    const here = this.life[at]!.air?.air;
    const before = this.life[at - 1]?.air?.air.humidityPct;
    const after = this.life[at + 1]?.air?.air.humidityPct;
    const own = here?.humidityPct;
    const y = (percent: number) =>
      ROOM.bottom - ((ROOM.bottom - ROOM.top) * (percent - ROOM.fromPct)) / (ROOM.toPct - ROOM.fromPct);
    const half = (from: number | undefined, to: number | undefined, share: number) =>
      from === undefined || to === undefined ? undefined : y(from + share * (to - from));
    // A column of a pass goes a quarter of the way to its neighbours, so that the line has no corner at a column's edge.
    const points =
      kind === 'pass'
        ? [
            [0, half(own, before, 1 / 4)],
            [ROOM.width / 2, own === undefined ? undefined : y(own)],
            [ROOM.width, half(own, after, 1 / 4)],
          ]
        : [
            [0, half(before, own, 1 / 4)],
            [ROOM.width, half(before, own, 3 / 4)],
          ];
    const drawn = points.filter(([, height]) => height !== undefined);
    const said =
      kind === 'taken' || !here
        ? ''
        : `${numberText(here.humidityPct, 0, this.writing)} %, ${numberText(here.temperatureC, 1, this.writing)} °C`;
    return html`<td class=${this.early(column)} colspan="2">
      <svg part="picture" viewBox="0 0 ${ROOM.width} ${ROOM.height}" aria-hidden="true">
        ${drawn.length > 1 ? svg`<path d=${`M${drawn.map(([x, height]) => `${x} ${height}`).join('L')}`}></path>` : nothing}
        ${kind === 'pass' && own !== undefined ? svg`<circle cx=${ROOM.width / 2} cy=${y(own)} r="4"></circle>` : nothing}
      </svg>
      ${kind === 'pass' ? html`<span part="words">${said || 'no reading of the room'}</span>` : nothing}
    </td>`;
  }
}
