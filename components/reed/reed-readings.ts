import '../../shared/without-code-generation.ts';
import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { FormatError } from '../../shared/errors.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import { readReeds } from '../../src/exchange/csv/reeds-of.ts';
import { writeLongCsv } from '../../src/exchange/csv/write-csv.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { AS_NATIVE } from '../across-shadows.ts';
import { gridWith } from '../readings-grid/grid-cells.ts';
import '../readings-grid/readings-grid.ts';
import type { ReadingsGrid } from '../readings-grid/readings-grid.ts';
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
export class ReedReadings extends LitElement {
  static formAssociated = true;
  static override shadowRootOptions: ShadowRootInit = { mode: 'open', delegatesFocus: true };
  static override styles = [base, partStyles];

  private readonly internals = this.attachInternals();
  @query('bench-readings-grid') private readonly grid!: ReadingsGrid | null;
  @state() private readings: readonly Reading[] = [];
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
  /** The form is not sent while nothing was read. */
  @property({ type: Boolean, reflect: true }) required = false;

  /** The readings as the text of a file, in mm; blank while there are none. */
  get value(): string {
    const { readings, reed: label, pass: index } = this;
    return readings.length === 0 ? '' : writeLongCsv([{ label, passes: [{ index, readings }] }], 'point');
  }

  /** Takes the readings of the first pass of a file's text. */
  set value(text: string) {
    void this.take(text);
  }

  /** Puts the keyboard on the first station. */
  override focus(): void {
    const [fromTipMm = 0] = this.fromTip;
    const [across = 0] = this.across;
    this.grid?.openPlace({ blade: 'A', fromTipMm, across });
  }

  private async take(text: string): Promise<void> {
    this.problem = '';
    try {
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

  override willUpdate(changed: PropertyValues) {
    if (!['readings', 'reed', 'pass', 'required'].some((name) => changed.has(name))) return;
    this.internals.setFormValue(this.value);
    const isMissing = this.required && this.readings.length === 0;
    this.internals.setValidity(
      isMissing ? { valueMissing: true } : {},
      isMissing ? 'Read a station first.' : '',
    );
  }

  private handleChange({ target }: Event) {
    this.readings = (target as ReadingsGrid).readings;
    this.problem = '';
    this.dispatchEvent(new Event('change', AS_NATIVE));
  }

  override render() {
    const { unit, decimal, fromTip, across, readings } = this;
    return html`${this.problem ? html`<p class="problem" part="problem" role="alert">${this.problem}</p>` : nothing}
      <bench-readings-grid
        ?inert=${this.isDisabled}
        .readings=${readings}
        .shape=${gridWith({ fromTipMm: fromTip, across }, readings)}
        .writing=${{ unit, decimal }}
        @bench-readings-change=${this.handleChange}
      ></bench-readings-grid>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-readings': ReedReadings;
  }
}
