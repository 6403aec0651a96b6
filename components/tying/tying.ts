import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
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
import { hrefOf } from '../frame/routes.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

const stapleSchema = reedSchema.shape.staple.unwrap();
const tieSchema = reedSchema.shape.tie.unwrap();

const STAPLE_FIELDS: readonly Field<keyof typeof stapleSchema.shape>[] = [
  { name: 'name', words: 'Staple', kind: 'text' },
  { name: 'lengthMm', words: 'Its length, mm', kind: 'number' },
  { name: 'boreClass', words: 'Its bore', kind: 'text' },
];
const TIE_FIELDS: readonly Field<keyof typeof tieSchema.shape>[] = [
  { name: 'threadColour', words: 'Thread', kind: 'text' },
  { name: 'overallMm', words: 'Overall as tied, mm', kind: 'number' },
  { name: 'threadMm', words: 'Top of the thread above the cork end, mm', kind: 'number' },
  { name: 'overlap', words: 'Overlap of the blades', kind: 'text' },
  {
    name: 'leaks',
    words: 'Leak check',
    kind: 'choice',
    options: [
      ['tight', 'tight'],
      ['leaks', 'leaks'],
      ['not tried', 'not tried'],
    ],
  },
  { name: 'markOfA', words: 'Mark of A', kind: 'text' },
  { name: 'wireMm', words: 'Wire, mm above the thread', kind: 'number' },
];

/** The cane a reed was made of and how it was tied; the blade's outline follows from shape and length. */
@customElement('bench-tying')
export class Tying extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    fields,
    pages,
    css`
      ul {
        margin: 0;
        padding-left: 1.2em;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @state() private problem = '';
  /** Chosen by hand; blank for none. */
  @state() private chosenLotId: string | undefined;

  @property({ attribute: false }) reed: Reed | undefined;

  /** The lot chosen or kept; before either, the one whose letters begin the reed's label. */
  private get lotId(): string | undefined {
    return this.chosenLotId ?? lotOf(this.reed!, this.live.lot)?.id;
  }

  private get live() {
    return this.library.store!.snapshot.live;
  }

  private async handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const data = new FormData(form);
    const reed = this.reed!;
    const staple = readFields(data, STAPLE_FIELDS, stapleSchema);
    const tie = readFields(data, TIE_FIELDS, tieSchema);
    const bad = 'problem' in staple ? staple : 'problem' in tie ? tie : undefined;
    this.problem = bad?.problem ?? '';
    markField(form, bad?.name);
    if (!('values' in staple) || !('values' in tie)) return;
    const chosen = (name: string) => String(data.get(name) ?? '') || undefined;
    const shape = this.live.shape.find(({ id }) => id === chosen('shape'));
    const { overallMm } = tie.values;
    const isNew = shape && (shape.id !== reed.shapeId || overallMm !== reed.tie?.overallMm || !reed.planform);
    const change = {
      lotId: chosen('lot'),
      pieceId: chosen('piece'),
      shapeId: shape?.id,
      tiedOn: chosen('tiedOn'),
      staple: staple.values,
      tie: tie.values,
      ...(isNew && overallMm !== undefined && { planform: planformOf(shape, overallMm) }),
    };
    const piece = this.live.piece.find(({ id }) => id === change.pieceId);
    const made = piece && piece.fate !== 'reed' ? [{ ...piece, fate: 'reed' as const }] : [];
    const store = this.library.store!;
    await store.keepLatest(
      () => [{ ...(store.reed(reed.id) ?? reed), ...change }, ...made],
      `tying ${reed.label}`,
    );
  }

  private handleCorrected(planform: Planform) {
    const [reed, store] = [this.reed!, this.library.store!];
    void store.keepLatest(
      () => [{ ...(store.reed(reed.id) ?? reed), planform }],
      `the outline of ${reed.label}`,
    );
  }

  private handleLot(event: Event) {
    this.chosenLotId = (event.target as HTMLSelectElement).value;
  }

  override render() {
    const { reed } = this;
    if (!reed || !this.library.store) return nothing;
    return html`<section>
      <h2>Cane and tying</h2>
      ${this.renderGeometry(reed)}
      <form @submit=${this.handleKeep}>
        <div class="fields">
          ${this.renderCane(reed)}
          <label>Tied on<input name="tiedOn" type="date" .value=${reed.tiedOn ?? ''} /></label>
          ${renderFields(STAPLE_FIELDS, reed.staple, this.library.writing)}
          ${renderFields(TIE_FIELDS, reed.tie, this.library.writing)}
        </div>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts"><button class="main">Keep the tying</button></div>
      </form>
      <p class="quiet">
        Lots, pieces and shapes are made under
        <a href=${hrefOf({ at: 'cane' })}>Cane</a>.
      </p>
      <bench-caution about="knife"></bench-caution>
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
        >${words}<select name=${name} @change=${name === 'lot' ? this.handleLot : nothing}>
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
        Lengths to 0.1 mm and widths to 0.02 mm, as a calliper repeats (95 %; common practice, no source). The
        surface uses the outline that the reed was tied with.
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

declare global {
  interface HTMLElementTagNameMap {
    'bench-tying': Tying;
  }
}
