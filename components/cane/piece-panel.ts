import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { pieceSchema, threePointsSchema, type GougeReading, type Piece } from '../../shared/cane.ts';
import type { WishedGouge } from '../../shared/settings.ts';
import { pieceEvenness } from '../../src/cane/evenness.ts';
import { gougeNoise } from '../../src/cane/gouge-noise.ts';
import { originalCane, type OriginalCane } from '../../src/cane/original-cane.ts';
import { tubeDiameter } from '../../src/cane/tube-diameter.ts';
import { compareGouge, STARTING_GOUGE, type GougeComparison } from '../../src/cane/wished-gouge.ts';
import {
  COVERAGE,
  differenceFigure,
  distanceFigure,
  joined,
  thicknessFigure,
  UNIT_WORDS,
} from '../../src/words/format.ts';
import type { Estimate } from '../../src/surface/reed-model.ts';
import '../figures-table/copy-table.ts';
import { hrefOf } from '../frame/routes.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './gouge-picture.ts';
import './gouge-readings.ts';
import type { GougeReadingEvent } from './gouge-readings.ts';
import './wished-form.ts';

type PieceField = Field<Extract<keyof Piece, string>>;
const ABOUT: readonly PieceField[] = [
  { name: 'number', words: 'Number', kind: 'number' },
  { name: 'gougedOn', words: 'Gouged on', kind: 'day' },
  { name: 'gouger', words: 'Gouging machine', kind: 'text' },
  { name: 'sinceSharpened', words: 'Pieces since its blade was sharpened', kind: 'number' },
  {
    name: 'wetness',
    words: 'Wetness',
    kind: 'choice',
    options: [
      ['dry', 'dry'],
      ['damp', 'damp'],
      ['wet', 'wet'],
    ],
  },
  {
    name: 'fate',
    words: 'What became of it',
    kind: 'choice',
    options: [
      ['kept', 'kept'],
      ['rejected', 'rejected'],
      ['shaped', 'shaped'],
      ['reed', 'became a reed'],
    ],
  },
  { name: 'reason', words: 'Why', kind: 'text' },
  { name: 'note', words: 'Note', kind: 'long' },
];
const TUBE: readonly PieceField[] = [
  { name: 'tubeDiameterMm', words: 'Diameter by a radius gauge, mm', kind: 'number' },
];
const FIELDS = [...ABOUT, ...TUBE];
const THREE_POINTS: readonly Field<'feetApartMm' | 'heightMm'>[] = [
  { name: 'feetApartMm', words: 'By three points: edges apart, mm', kind: 'number' },
  { name: 'heightMm', words: 'height between them, mm', kind: 'number' },
];

const JUDGED: Readonly<Record<NonNullable<GougeComparison['sides']>, string>> = {
  'equal enough': 'The sides are equal enough.',
  doubtful: 'The sides stand at your limit, within the doubt: read them again at more places.',
  'too different': 'The sides differ by more than your limit. Do not shape this piece.',
};

/** One piece of cane: its tube, its gouge readings, how even it is, and the gouge that follows from them. */
@customElement('bench-piece-panel')
export class PiecePanel extends BenchElement {
  static override styles = [
    controls,
    forms,
    fields,
    pages,
    tables,
    css`
      .panel {
        display: grid;
        gap: var(--bench-space-5);
      }
      .two {
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 340px), 1fr));
        gap: var(--bench-space-5);
      }
      td small {
        color: var(--bench-ink3);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private problem = '';

  @property({ attribute: false }) piece: Piece | undefined;

  /** The piece as the library holds it now, whatever was typed since it was drawn. */
  private get latest(): Piece {
    const piece = this.piece!;
    return this.library.store!.snapshot.live.piece.find(({ id }) => id === piece.id) ?? piece;
  }

  private handleReading({ place, thicknessMm }: GougeReadingEvent) {
    const isElsewhere = ({ alongMm, arcMm }: GougeReading) =>
      alongMm !== place.alongMm || arcMm !== place.arcMm;
    void this.library.store!.keepLatest(() => {
      const { latest } = this;
      const others = latest.readings.filter(isElsewhere);
      const readings = thicknessMm === undefined ? others : [...others, { ...place, thicknessMm }];
      return [{ ...latest, readings }];
    }, `a reading of piece ${this.piece!.number}`);
  }

  private async handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const data = new FormData(form);
    const typed = readFields(data, FIELDS, pieceSchema);
    const isBlank = THREE_POINTS.every(({ name }) => String(data.get(name) ?? '').trim() === '');
    const points = isBlank ? { values: undefined } : readFields(data, THREE_POINTS, threePointsSchema);
    const bad = 'problem' in typed ? typed : 'problem' in points ? points : undefined;
    this.problem = bad?.problem ?? '';
    markField(form, bad?.name);
    if (!('values' in typed) || !('values' in points)) return;
    const whole = points.values && threePointsSchema.safeParse(points.values);
    const piece = this.piece!;
    const change = { ...typed.values, tubeThreePoints: whole?.data };
    try {
      tubeDiameter({ ...piece, ...change });
    } catch (error) {
      this.problem = `The height must be above 0, and no more than half of what the edges are apart.`;
      markField(form, 'heightMm');
      if (!(error instanceof Error)) throw error;
      return;
    }
    await this.library.store!.keepLatest(() => [{ ...this.latest, ...change }], `piece ${piece.number}`);
  }

  private async handleBin() {
    const piece = this.piece!;
    await this.library.store!.remove([piece.id], `piece ${piece.number} into the bin`);
    location.hash = hrefOf({ at: 'cane', shown: { kind: 'lot', id: piece.lotId } });
  }

  override render() {
    const { piece } = this;
    const { store } = this.library;
    if (!piece || !store) return nothing;
    const wished = this.library.choices.gouge ?? STARTING_GOUGE;
    const noise = gougeNoise(store.snapshot.live.gauge.at(-1));
    const evenness = pieceEvenness(piece.readings, noise);
    const original = originalCane(piece, noise);
    const compared = compareGouge(evenness, original?.curve, wished);
    return html`<div class="panel">
      ${this.renderReadings(piece, wished, compared)}
      <div class="two">
        <section>
          <bench-gouge-picture
            of=${`Piece ${piece.number}`}
            .readings=${piece.readings}
            .curve=${original?.curve}
            .wished=${wished}
            .writing=${this.library.writing}
          ></bench-gouge-picture>
          <p class="quiet">
            Dots are readings, the line is the inner curve with its 95 % doubt, short dashes are your wish.
          </p>
        </section>
        ${this.renderFigures(evenness, compared)}
      </div>
      ${original ? this.renderCurve(original) : nothing}
      <bench-wished-gouge></bench-wished-gouge>
      ${this.renderAbout(piece)}
    </div>`;
  }

  private renderReadings(piece: Piece, wished: WishedGouge, { sides }: GougeComparison) {
    const lot = this.library.store!.snapshot.live.lot.find(({ id }) => id === piece.lotId);
    return html`<section>
      <h2>
        ${lot ? html`<a href=${hrefOf({ at: 'cane', shown: { kind: 'lot', id: lot.id } })}>Lot ${lot.code}</a>, ` : nothing}
        piece ${piece.number}
      </h2>
      <p class="aside">${sides ? JUDGED[sides] : 'Read the centre and both sides to see how even it is.'}</p>
      <bench-gouge-readings
        .readings=${piece.readings}
        .sideArcMm=${wished.sideArcMm}
        @bench-gouge-reading=${this.handleReading}
      ></bench-gouge-readings>
    </section>`;
  }

  private renderAbout(piece: Piece) {
    return html`<details ?open=${piece.readings.length === 0}>
      <summary>About this piece</summary>
      <form @submit=${this.handleKeep}>
        <div class="fields">${renderFields(ABOUT, piece, this.library.writing)}</div>
        <details ?open=${this.problem !== ''}>
          <summary>The tube it was split from</summary>
          <div class="fields">
            ${renderFields(TUBE, piece, this.library.writing)}
            ${renderFields(THREE_POINTS, piece.tubeThreePoints, this.library.writing)}
          </div>
        </details>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts">
          <button class="main">Keep</button>
          <button type="button" @click=${this.handleBin}>Put into the bin</button>
        </div>
      </form>
    </details>`;
  }

  private renderFigures(evenness: ReturnType<typeof pieceEvenness>, compared: GougeComparison) {
    const { writing } = this.library;
    const figure = (name: string, estimate: Estimate | undefined, isDifference = false) => {
      if (!estimate) return nothing;
      const { value, doubt } = (isDifference ? differenceFigure : thicknessFigure)(estimate, writing);
      return html`<tr>
        <th scope="row">${name}</th>
        <td>${value} <small>${doubt}</small></td>
      </tr>`;
    };
    if (!evenness.centre && !evenness.sides) return nothing;
    return html`<section>
      <table>
        <caption>
          Evenness, ${UNIT_WORDS[writing.unit].caption}, ± 95 %
          <bench-copy></bench-copy>
        </caption>
        <tbody>
          ${figure('Centre', evenness.centre)} ${figure('Sides', evenness.sides)}
          ${figure('Side 1 less side 2', evenness.sideDifference, true)}
          ${figure('Along, over 10 mm', evenness.along10mm, true)}
          ${figure('Centre, thickest less thinnest', evenness.centreRange, true)}
          ${figure('Centre less wished', compared.centre, true)}
          ${figure('Side 1 less wished', compared.side1, true)}
          ${figure('Side 2 less wished', compared.side2, true)}
        </tbody>
      </table>
    </section>`;
  }

  private renderCurve({ curve, tubeAssumed }: OriginalCane) {
    const { writing } = this.library;
    const mm = (estimate: Estimate) => `${joined(distanceFigure(estimate, writing))}\u00a0mm`;
    const tube = tubeAssumed
      ? 'The tube was not measured: a usual diameter is assumed, and its doubt is in the figures.'
      : `Tube ${mm({ valueMm: 2 * curve.barkRadiusMm, uMm: tubeDiameter(this.piece!)!.uMm })} across.`;
    const aside = Math.abs(curve.aside.valueMm) > COVERAGE * curve.aside.uMm ? '' : ', inside its doubt';
    return html`<p class="quiet">
      ${tube} Inner curve: radius ${mm(curve.innerRadiusMm)}; its centre
      ${mm({ ...curve.towardsTop, valueMm: Math.abs(curve.towardsTop.valueMm) })}
      ${curve.towardsTop.valueMm < 0 ? 'behind' : 'before'} the tube’s axis, and
      ${mm({ ...curve.aside, valueMm: Math.abs(curve.aside.valueMm) })} towards side
      ${curve.aside.valueMm > 0 ? 2 : 1}${aside}. From it comes the original thickness of the cane under every
      place of the blades.
    </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-piece-panel': PiecePanel;
  }
}
