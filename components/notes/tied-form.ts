import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Shape } from '../../shared/cane.ts';
import type { Planform } from '../../shared/planform.ts';
import { reedSchema, type Reed } from '../../shared/reed.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { correctedOutline } from '../../src/cane/shape-since.ts';
import { lotOf } from '../../src/cane/lot-of.ts';
import { planformOf } from '../../src/cane/shapes.ts';
import { tieGeometry } from '../../src/cane/tie-geometry.ts';
import { numberText, withUnit } from '../../src/words/format.ts';
import '../caution/caution.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { hrefOf } from '../frame/routes.ts';
import { readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { tiedDrawing } from './tied-drawing.ts';
import { WrittenForm } from './written-form.ts';

const stapleSchema = reedSchema.shape.staple.unwrap();
const tieSchema = reedSchema.shape.tie.unwrap();

type StapleField = Field<keyof typeof stapleSchema.shape>;
type TieField = Field<keyof typeof tieSchema.shape>;

/** What is asked first, beside lot, piece, shape and day; and what else may be written. */
const PAGES: readonly {
  readonly title: string;
  readonly staple: readonly StapleField[];
  readonly tie: readonly TieField[];
}[] = [
  {
    title: 'Cane and lengths',
    staple: [{ name: 'lengthMm', words: 'Staple, its length, mm', kind: 'number' }],
    tie: [
      { name: 'overallMm', words: 'Overall as tied, mm', kind: 'number' },
      { name: 'threadMm', words: 'Top of the thread above the cork end, mm', kind: 'number' },
      {
        name: 'leaks',
        words: 'Leak check',
        kind: 'steps',
        options: [
          ['tight', 'tight'],
          ['leaks', 'leaks'],
          ['not tried', 'not tried'],
        ],
      },
    ],
  },
  {
    title: 'Staple, thread, wire',
    staple: [
      { name: 'name', words: 'Staple', kind: 'text' },
      { name: 'boreClass', words: 'Its bore', kind: 'text' },
    ],
    tie: [
      { name: 'threadColour', words: 'Thread', kind: 'text' },
      { name: 'overlap', words: 'Overlap of the blades', kind: 'text' },
      { name: 'markOfA', words: 'Mark of A', kind: 'text' },
      { name: 'wireMm', words: 'Wire, mm above the thread', kind: 'number' },
    ],
  },
];

/** The cane a reed was made of and how it was tied, kept as it is written; the blade's outline follows from shape and length. */
@customElement('bench-tied-form')
export class TiedForm extends WrittenForm {
  static override styles = [
    ...WrittenForm.styles,
    css`
      ul {
        margin: 0;
        padding-left: 1.2em;
      }
      svg.tied {
        max-width: 680px;
        width: 100%;
      }
      svg path {
        fill: none;
        stroke: var(--bench-ink);
      }
      svg .staple {
        fill: var(--bench-sunk);
      }
      svg .cane {
        fill: var(--bench-thickness-3);
      }
      svg .thread {
        stroke-width: 2.5;
      }
      svg.open .cane {
        fill: none;
        stroke-dasharray: 6 4;
      }
      svg text {
        fill: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      svg .size {
        fill: var(--bench-ink);
        font-weight: 600;
      }
      .fields {
        grid-template-columns: repeat(auto-fill, minmax(min(100%, 210px), 1fr));
        align-items: start;
      }
    `,
  ];

  private shown: Reed | undefined;

  @property({ attribute: false }) reed: Reed | undefined;

  /** The lot kept; before one is, the one whose letters begin the reed's label. */
  private get lotId(): Reed['lotId'] {
    return lotOf(this.reed!, this.live.lot)?.id;
  }

  private get live() {
    return this.library.store!.snapshot.live;
  }

  override willUpdate() {
    if (!this.keeping.isWriting) this.shown = this.reed;
  }

  protected override keep() {
    const { form } = this;
    const reed = this.reed!;
    if (!form) return;
    const data = new FormData(form);
    const { staple: ofStaple, tie: ofTie } = PAGES[this.page]!;
    const staple = readFields(data, ofStaple, stapleSchema);
    const tie = readFields(data, ofTie, tieSchema);
    const bad = 'problem' in staple ? staple : 'problem' in tie ? tie : undefined;
    this.tell(bad);
    if (!('values' in staple) || !('values' in tie)) return;
    const cane = this.page === 0 ? this.caneIn(data) : { lotId: this.lotId };
    const store = this.library.store!;
    void store.keepLatest(() => {
      const before = store.reed(reed.id) ?? reed;
      const tied = {
        ...before,
        ...cane,
        staple: { ...before.staple, ...staple.values },
        tie: { ...before.tie, ...tie.values },
      };
      return [this.withOutline(before, tied), ...this.madeOf(tied)];
    }, `tying ${reed.label}`);
  }

  /** What the reed was made of, as it was chosen. A piece of another lot than the one chosen is let go. */
  private caneIn(data: FormData): Pick<Reed, 'lotId' | 'pieceId' | 'shapeId' | 'tiedOn'> {
    const chosen = (name: string) => String(data.get(name) ?? '') || undefined;
    const lotId = this.live.lot.find(({ id }) => id === chosen('lot'))?.id;
    const piece = this.live.piece.find(({ id }) => id === chosen('piece'));
    return {
      lotId,
      pieceId: piece?.lotId === lotId ? piece?.id : undefined,
      shapeId: this.live.shape.find(({ id }) => id === chosen('shape'))?.id,
      tiedOn: chosen('tiedOn'),
    };
  }

  /** With the outline that follows from a shape or length that is new. */
  private withOutline(before: Reed, tied: Reed): Reed {
    const shape = this.live.shape.find(({ id }) => id === tied.shapeId);
    const overallMm = tied.tie?.overallMm;
    if (!shape || overallMm === undefined) return tied;
    const isNew = shape.id !== before.shapeId || overallMm !== before.tie?.overallMm || !before.planform;
    return isNew ? { ...tied, planform: planformOf(shape, overallMm) } : tied;
  }

  private madeOf({ pieceId }: Reed) {
    const piece = this.live.piece.find(({ id }) => id === pieceId);
    return piece && piece.fate !== 'reed' ? [{ ...piece, fate: 'reed' as const }] : [];
  }

  private handleCorrected(planform: Planform) {
    const [reed, store] = [this.reed!, this.library.store!];
    void store.keepLatest(
      () => [{ ...(store.reed(reed.id) ?? reed), planform }],
      `the outline of ${reed.label}`,
    );
  }

  override render() {
    const { reed, shown } = this;
    if (!reed || !shown || !this.library.store) return nothing;
    const { writing } = this.library;
    const { staple, tie } = PAGES[this.page]!;
    return html`<section>
      <h2>Tied${reed.tiedOn ? ` on ${dayWords(reed.tiedOn)}` : ''}</h2>
      ${tiedDrawing(reed, writing)} ${this.renderPages(PAGES)}
      ${this.renderForm(
        html`${
          this.page === 0
            ? html`${this.renderCane(reed)}
                <label>Tied on<input name="tiedOn" type="date" .value=${shown.tiedOn ?? ''} /></label>`
            : nothing
        }
        ${renderFields(staple, shown.staple, writing)} ${renderFields(tie, shown.tie, writing)}`,
        this.renderProblem(),
      )}
      ${this.renderGeometry(reed)}
      <p class="quiet">
        Kept as you write. Lots, pieces and shapes are made under
        <a href=${hrefOf({ at: 'cane' })}>Cane</a>.
      </p>
      <bench-caution about="knife tying varnish"></bench-caution>
    </section>`;
  }

  private renderCane(reed: Reed) {
    const { lot, piece, shape } = this.live;
    const pieces = piece
      .filter(({ lotId }) => lotId === this.lotId)
      .sort((a, b) => a.number - b.number)
      .map(({ id, number, fate }) => [id, fate ? `${number}, ${fate}` : String(number)] as const);
    const select = (
      name: string,
      words: string,
      value: string | undefined,
      options: readonly (readonly [string, string])[],
    ) =>
      html`<label
        >${words}<select name=${name}>
          <option value="">–</option>
          ${options.map(([id, text]) => html`<option value=${id} ?selected=${id === value}>${text}</option>`)}
        </select></label
      >`;
    return html`${select(
      'lot',
      'Lot',
      this.lotId,
      lot.map(({ id, code }) => [id, code]),
    )}
    ${select('piece', 'Piece', reed.pieceId, pieces)}
    ${select(
      'shape',
      'Shape',
      reed.shapeId,
      shape.map(({ id, name }) => [id, name]),
    )}`;
  }

  private threadWords(overMm: number): string {
    if (Math.abs(overMm) < 0.05) return 'the thread ends at the staple’s top';
    const size = withUnit(numberText(Math.abs(overMm), 1, this.library.writing), 'mm');
    return overMm > 0
      ? `the thread goes ${size} over the staple’s top`
      : `the thread stops ${size} under the staple’s top`;
  }

  private renderGeometry(reed: Reed) {
    const shape = this.live.shape.find(({ id }) => id === reed.shapeId);
    const { bladeMm, threadOverStapleMm, tipWidthMm, widthAtThreadMm, remarks } = tieGeometry(reed, shape);
    const { writing } = this.library;
    const mm = (value: number, digits: number) => withUnit(numberText(value, digits, writing), 'mm');
    const facts = [
      bladeMm === undefined ? '' : `blade ${mm(bladeMm, 1)} as tied`,
      tipWidthMm === undefined ? '' : `${mm(tipWidthMm, 2)} wide at the tip`,
      widthAtThreadMm === undefined ? '' : `${mm(widthAtThreadMm, 2)} at the thread`,
      threadOverStapleMm === undefined ? '' : this.threadWords(threadOverStapleMm),
    ].filter(Boolean);
    if (facts.length === 0 && remarks.length === 0) return nothing;
    return html`<p class="aside">${sentence(facts.join(', '))}.</p>
      ${
        remarks.length > 0
          ? html`<ul>
              ${remarks.map((remark) => html`<li>${remark}</li>`)}
            </ul>`
          : nothing
      }
      <p class="quiet">
        Lengths to ${mm(0.1, 1)} and widths to ${mm(0.02, 2)}, as a calliper repeats (95 %; common practice,
        no source). The surface uses the outline that the reed was tied with.
      </p>
      ${shape ? this.renderCorrected(reed, shape) : nothing}`;
  }

  private renderCorrected(reed: Reed, shape: Shape) {
    const today = correctedOutline(reed, shape);
    if (!today) return nothing;
    return html`<p role="status">
        ${shape.name} was changed since this reed was tied. The reed keeps the outline that it was tied with;
        take the other one if the old record was wrong.
      </p>
      <button @click=${() => this.handleCorrected(today)}>Take the corrected outline</button>`;
  }
}
