import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { noteHz, nearestNote } from '../../src/climate/pitch.ts';
import { COVERAGE, type NumberFormat } from '../../src/words/format.ts';
import { boxes } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { noteText, readNote } from './trial-notes.ts';

const REACH_CENTS = 50;
const WIDTH = 240;
const MIDDLE = WIDTH / 2;
const UNITS_PER_CENT = (MIDDLE - 12) / REACH_CENTS;
const x = (cents: number) => MIDDLE + Math.max(-REACH_CENTS, Math.min(REACH_CENTS, cents)) * UNITS_PER_CENT;
const TICKS = Array.from({ length: 11 }, (_, k) => 10 * k - REACH_CENTS)
  .map((cents) => `M${x(cents)} 14v${cents % REACH_CENTS === 0 ? 10 : 6}`)
  .join('');

/** Steps of the keys: cents, or half tones. */
const KEYS: Readonly<Record<string, readonly [step: 'cents' | 'halves', by: number]>> = {
  ArrowUp: ['cents', 1],
  ArrowDown: ['cents', -1],
  PageUp: ['halves', 1],
  PageDown: ['halves', -1],
};

/**
 * A note and its cents in one field, `C6 −10`, on a line of cents that can be touched. Arrows change the cents by one, with
 * Shift by five; Page up and Page down the note.
 *
 * @event input - It is being written.
 * @event change - It was written.
 */
@customElement('bench-note-field')
export class NoteField extends BenchElement {
  static readonly formAssociated = true;
  static override readonly shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    boxes,
    css`
      label {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--bench-space-1);
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      strong {
        color: var(--bench-ink);
      }
      .row {
        display: flex;
        gap: var(--bench-space-3);
        align-items: center;
      }
      input {
        flex: 0 0 6.5em;
        width: 6.5em;
      }
      :host([aria-invalid='true']) input {
        border: 2px solid var(--bench-stop);
      }
      svg {
        flex: 1 1 0;
        min-width: 0;
        max-width: 280px;
        height: 44px;
        cursor: pointer;
        touch-action: none;
      }
      path {
        stroke: var(--bench-ink3);
        fill: none;
      }
      .doubt {
        stroke: var(--bench-ink);
        stroke-width: 4;
        stroke-dasharray: 4 2;
      }
      circle {
        fill: var(--bench-ink);
        stroke: var(--bench-plate);
        stroke-width: 2;
      }
      circle.none {
        fill: var(--bench-plate);
        stroke: var(--bench-ink3);
      }
      text {
        fill: var(--bench-ink2);
        font: var(--bench-font-caption);
        font-size: 12px;
      }
    `,
  ];

  private readonly internals = this.attachInternals();
  @query('input') private readonly input!: HTMLInputElement | null;

  @property({ reflect: true }) name = '';
  @property() words = '';
  @property() hint = '';
  @property() value = '';
  /** The note that cents are told from before one is written; without it the field holds cents alone. */
  @property() usual = '';
  /** One standard uncertainty of the cents. */
  @property({ type: Number, attribute: 'u-cents' }) uCents: number | undefined;
  @property() decimal: NumberFormat['decimal'] = 'point';

  override willUpdate() {
    this.internals.setFormValue(this.value);
  }

  private get read() {
    const read = readNote(this.usual === '' && this.value ? `C5 ${this.value}` : this.value);
    return typeof read === 'string' ? undefined : read;
  }

  private write(note: string, cents: number, isDone: boolean) {
    this.take(noteText({ note: this.usual && note, cents }, this), isDone);
  }

  private take(text: string, isDone: boolean) {
    this.value = text;
    if (this.input) this.input.value = text;
    this.internals.setFormValue(text);
    this.dispatchEvent(new Event(isDone ? 'change' : 'input'));
  }

  private handleInput(event: Event) {
    event.stopPropagation();
    this.take(this.input!.value, event.type === 'change');
  }

  private handleKey(event: KeyboardEvent) {
    const key = KEYS[event.key];
    if (!key) return;
    event.preventDefault();
    const { note = this.usual, cents = 0 } = this.read ?? {};
    const [step, by] = key;
    if (step === 'cents') return this.write(note, cents + by * (event.shiftKey ? 5 : 1), false);
    const hz = noteHz(note, 440);
    if (hz !== undefined && this.usual) this.write(nearestNote(hz * 2 ** (by / 12), 440).note, cents, false);
  }

  private handlePointer(event: PointerEvent) {
    if (event.type === 'pointermove' && event.buttons === 0) return;
    const line = event.currentTarget as SVGElement;
    if (event.type === 'pointerdown') line.setPointerCapture(event.pointerId);
    const { left, width } = line.getBoundingClientRect();
    const cents = (((event.clientX - left) / width) * WIDTH - MIDDLE) / UNITS_PER_CENT;
    const held = Math.round(Math.max(-REACH_CENTS, Math.min(REACH_CENTS, cents)));
    this.write(this.read?.note ?? this.usual, held, event.type === 'pointerup');
  }

  override render() {
    const { read } = this;
    return html`<label
      ><span><strong>${this.words}</strong> ${this.hint}</span>
      <span class="row"
        ><input
          autocomplete="off"
          inputmode=${this.usual === '' ? 'text' : nothing}
          .value=${this.value}
          placeholder=${this.usual === '' ? '±0' : `as ${this.usual} +4`}
          @input=${this.handleInput}
          @change=${this.handleInput}
          @keydown=${this.handleKey}
        />
        <svg
          viewBox="0 0 ${WIDTH} 44"
          aria-hidden="true"
          @pointerdown=${this.handlePointer}
          @pointermove=${this.handlePointer}
          @pointerup=${this.handlePointer}
        >
          <path d=${`M${x(-REACH_CENTS)} 24H${x(REACH_CENTS)}${TICKS}M${MIDDLE} 6v18`}></path>
          <text x="0" y="42">−50</text>
          <text x=${WIDTH} y="42" text-anchor="end">+50</text>
          ${this.renderMark(read?.cents ?? (read ? 0 : undefined))}
        </svg>
      </span>
    </label>`;
  }

  private renderMark(cents: number | undefined) {
    if (cents === undefined) return svg`<circle class="none" cx=${MIDDLE} cy="24" r="5"></circle>`;
    const { uCents } = this;
    const reach = COVERAGE * (uCents ?? 0);
    return svg`${
      uCents === undefined
        ? nothing
        : svg`<path class="doubt" d=${`M${x(cents - reach)} 24H${x(cents + reach)}`}></path>`
    }<circle cx=${x(cents)} cy="24" r="7"></circle>`;
  }
}
