import '../../shared/without-code-generation.ts';
import { html, nothing, type CSSResultGroup, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { FormatError } from '../../shared/errors.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import { writeLongCsv } from '../../src/exchange/csv/write-csv.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { AS_NATIVE } from '../across-shadows.ts';
import { gridWith } from '../readings-grid/grid-cells.ts';
import { ReadingsGrid } from '../readings-grid/readings-grid.ts';
import { base } from '../theme/base.styles.ts';
import { partStyles } from './reed-part.styles.ts';

const numbers = {
  fromAttribute: (text: string | null) => (text ?? '').split(/\s+/).filter(Boolean).map(Number),
  toAttribute: (values: readonly number[]) => values.join(' '),
};

/**
 * The readings of one pass as a sheet to type in, for a form: rows are distances from the tip, columns places across. Its
 * `value` is the text of a file of readings, which `bench-reed` and the core take as it is.
 *
 * Keys: arrows, Home and End move; digits and Enter read and go to the next station; `+` reads it once more, `-` goes back
 * one, `*` marks no cane, `/` marks unsure; blank and Enter clears. A block from a spreadsheet is pasted at the cursor.
 *
 * @fires {Event} change - The reader has changed readings: `value` is new.
 * @csspart problem - What of a `value` that was set was not understood.
 * @cssprop --bench-paper - Ground.
 * @cssprop --bench-ink - Text and lines.
 * @slot - Nothing is shown of what stands inside.
 */
@customElement('bench-reed-readings')
export class ReedReadings extends ReadingsGrid {
  static formAssociated = true;
  static override shadowRootOptions: ShadowRootInit = { mode: 'open', delegatesFocus: true };
  static override styles: CSSResultGroup = [partStyles, base, ReadingsGrid.styles];

  private readonly internals = this.attachInternals();
  @state() private problem = '';
  @state() private isDisabled = false;

  /** Under which the form sends `value`. */
  @property({ reflect: true, useDefault: true }) name = '';
  /** Label of the reed, for the first column of the value. */
  @property({ reflect: true, useDefault: true }) reed = 'Reed';
  /** Number of the pass. */
  @property({ type: Number, reflect: true, useDefault: true }) pass = 0;
  /** Unit in which readings are typed and shown: `hundredths` (of a mm), `mm` or `thou`. */
  @property({ reflect: true, useDefault: true }) unit: ThicknessUnit = 'hundredths';
  /** Decimal sign: `point` or `comma`. */
  @property({ reflect: true, useDefault: true }) decimal: NumberFormat['decimal'] = 'point';
  /** Distances from the tip, mm, rising, with blanks between. */
  @property({ attribute: 'from-tip', converter: numbers }) fromTip: readonly number[] = [
    0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20,
  ];
  /** Places across as shares of the half-width, rising from -1 to 1, with blanks between. */
  @property({ converter: numbers }) across: readonly number[] = [-0.8, -0.4, 0, 0.4, 0.8];
  /** Without a ground and a frame of its own, as a part of something that is framed already. */
  @property({ type: Boolean, reflect: true }) bare = false;
  /** The form is not sent while nothing was read. */
  @property({ type: Boolean, reflect: true }) required = false;

  constructor() {
    super();
    this.addEventListener('bench-readings-change', () => {
      this.problem = '';
      this.dispatchEvent(new Event('change', AS_NATIVE));
    });
  }

  /** The readings as the text of a file, in mm; blank while there are none. */
  get value(): string {
    const { readings, reed: label, pass: index } = this;
    return readings.length === 0 ? '' : writeLongCsv([{ label, passes: [{ index, readings }] }], 'point');
  }

  /** Takes the readings of the first pass of a file's text. */
  set value(text: string) {
    void this.readText(text);
  }

  /** Puts the keyboard on the first station. */
  override focus(): void {
    const [fromTipMm = 0] = this.fromTip;
    const [across = 0] = this.across;
    this.openPlace({ blade: 'A', fromTipMm, across });
  }

  private async readText(text: string): Promise<void> {
    this.problem = '';
    try {
      const { readReeds } = await import('../../src/exchange/csv/reeds-of.ts');
      const [reed] = text.trim() === '' ? [] : await readReeds(text, { label: this.reed });
      this.readings = reed?.passes[0]?.readings ?? [];
    } catch (error) {
      if (!(error instanceof FormatError)) throw error;
      this.problem = error.message;
    }
  }

  formResetCallback(): void {
    this.readings = [];
  }

  formDisabledCallback(isDisabled: boolean): void {
    this.isDisabled = isDisabled;
  }

  /** What a browser gives back to a form that was left and is opened again. */
  formStateRestoreCallback(text: string): void {
    this.value = text;
  }

  override willUpdate(changed: PropertyValues<this>) {
    const { unit, decimal } = this;
    this.writing = { unit, decimal };
    const has = (...names: readonly (keyof ReedReadings)[]) => names.some((name) => changed.has(name));
    // What was read besides keeps its row while the pass is typed, also where its reading was cleared.
    if (has('fromTip', 'across', 'reed', 'pass'))
      this.shape = { fromTipMm: this.fromTip, across: this.across };
    this.shape = gridWith(this.shape, this.readings);
    super.willUpdate(changed);
    if (this.internals.form && has('readings', 'reed', 'pass', 'required')) this.tellForm();
  }

  private tellForm() {
    this.internals.setFormValue(this.value);
    const isMissing = this.required && this.readings.length === 0;
    this.internals.setValidity(
      isMissing ? { valueMissing: true } : {},
      isMissing ? 'Read a station first.' : '',
    );
  }

  /** Of a form that it is moved into. */
  formAssociatedCallback(form: HTMLFormElement | null): void {
    if (form) this.tellForm();
  }

  override render() {
    return html`${this.problem ? html`<p class="problem" part="problem" role="alert">${this.problem}</p>` : nothing}
      <div ?inert=${this.isDisabled}>${super.render()}</div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-readings': ReedReadings;
  }
}
