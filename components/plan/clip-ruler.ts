import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ClipPreview } from '../../src/plan/clip-preview.ts';
import type { Estimate } from '../../src/surface/reed-model.ts';
import {
  differenceFigure,
  distanceFigure,
  numberText,
  readingText,
  thicknessFigure,
  UNIT_WORDS,
  withUnit,
  type NumberFormat,
} from '../../src/words/format.ts';
import type { FigureCell, FigureRow } from '../figures-table/laid-out.ts';
import '../figures-table/figures-table.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** The tip was slid to where a clip would cut it. */
export class ClipSlideEvent extends Event {
  readonly clipMm: number;

  constructor(clipMm: number) {
    super('bench-clip-slide');
    this.clipMm = clipMm;
  }
}

const LONGEST_MM = 1;
const STEP_MM = 0.1;
const FINE_MM = 0.05;

/**
 * A ruler from 0 to 1 mm whose handle is the tip, and what the reed would be then: nothing is cut. Left and right go by
 * 0.1 mm, with Shift by 0.05.
 *
 * @event bench-clip-slide - The handle was moved.
 */
@customElement('bench-clip-ruler')
export class ClipRuler extends BenchElement {
  static override styles = css`
    input {
      width: 100%;
      min-height: var(--bench-touch);
      margin: 0;
      accent-color: var(--bench-ink);
    }
    .ticks {
      display: flex;
      justify-content: space-between;
      padding: 0 6px;
      color: var(--bench-ink3);
      font: var(--bench-font-caption);
    }
    p {
      margin: var(--bench-space-1) 0 0;
      color: var(--bench-ink3);
      font: var(--bench-font-caption);
    }
    .scroll {
      overflow-x: auto;
    }
  `;

  /** The reed as it is. */
  @property({ attribute: false }) now: ClipPreview | undefined;
  /** The reed as it would be; the same while the handle is at 0. */
  @property({ attribute: false }) then: ClipPreview | undefined;
  /** What it is compared with. */
  @property() towards = '';
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  private slide(clipMm: number) {
    const held = Math.min(LONGEST_MM, Math.max(0, Math.round(clipMm / FINE_MM) * FINE_MM));
    this.dispatchEvent(new ClipSlideEvent(held));
  }

  private handleKey(event: KeyboardEvent) {
    const way = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (way === undefined) return;
    event.preventDefault();
    this.slide((this.then?.clipMm ?? 0) + way * (event.shiftKey ? FINE_MM : STEP_MM));
  }

  private get clipText(): string {
    return withUnit(numberText(this.then?.clipMm ?? 0, 2, this.writing), 'mm');
  }

  private row(title: string, cell: (preview: ClipPreview) => FigureCell): FigureRow {
    const { now, then } = this;
    return { title, cells: [now!, then!].map(cell) };
  }

  private get rows(): FigureRow[] {
    const { writing } = this;
    const zone = (name: string) => (preview: ClipPreview) => {
      const found = preview.zones.find((one) => one.name === name);
      return found ? thicknessFigure(found.own, writing) : { none: 'the zone is gone' };
    };
    const crossing = (thicknessMm: number) => (preview: ClipPreview) => {
      const at = preview.crossings.find((one) => one.thicknessMm === thicknessMm)?.at;
      return at ? distanceFigure(at, writing) : { none: 'not passed' };
    };
    return [
      ...this.now!.zones.map(({ name, title }) => this.row(title, zone(name))),
      ...this.now!.crossings.map(({ thicknessMm }) =>
        this.row(`${readingText(thicknessMm, writing)} passed at, mm`, crossing(thicknessMm)),
      ),
      this.row('Mean excess', ({ excess }) => differenceFigure(excess, writing)),
      this.row('Mean lack', ({ lack }) => lackFigure(lack, writing)),
      this.row('Worst lack at one place', ({ worstLack }) =>
        worstLack ? lackFigure(worstLack, writing) : { none: 'no sure lack' },
      ),
    ];
  }

  override render() {
    if (!this.now) return nothing;
    const isSlid = (this.then?.clipMm ?? 0) > 0;
    return html`<input
        type="range"
        min="0"
        max=${LONGEST_MM}
        step=${FINE_MM}
        aria-label="Clip, mm"
        aria-valuetext=${isSlid ? `clip ${this.clipText}` : 'as it is'}
        .value=${String(this.then?.clipMm ?? 0)}
        @input=${(event: Event) => this.slide(Number((event.target as HTMLInputElement).value))}
        @keydown=${this.handleKey}
      />
      <div class="ticks" aria-hidden="true">
        <span>0</span><span>${numberText(0.5, 1, this.writing)}</span><span>1 mm</span>
      </div>
      ${isSlid ? this.renderTable() : html`<p>Slide it to see what a clip would make of the reed.</p>`}`;
  }

  private renderTable() {
    return html`<div class="scroll" tabindex="0" role="region" aria-label="What a clip would make of it">
        <bench-figures-table
          caption=${`Zone means, ${UNIT_WORDS[this.writing.unit].caption}; excess and lack against ${this.towards}. ± is 95 %; the worst place is the largest of many, and its ± is for one place.`}
          .heads=${['Figure', 'As it is', `Clip ${this.clipText}`]}
          .rows=${this.rows}
        ></bench-figures-table>
      </div>
      <p>Cut on a block, with your fingers behind the edge.</p>`;
  }
}

/** What is under the target: always with a minus. */
const lackFigure = ({ valueMm, uMm }: Estimate, writing: NumberFormat) =>
  differenceFigure({ valueMm: -valueMm, uMm }, writing);

declare global {
  interface HTMLElementTagNameMap {
    'bench-clip-ruler': ClipRuler;
  }
  interface HTMLElementEventMap {
    'bench-clip-slide': ClipSlideEvent;
  }
}
