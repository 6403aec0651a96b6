import { css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { shapeSchema, type Shape } from '../../shared/cane.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { compareShapes, shapeFigures, type OutlineFigure } from '../../src/cane/shapes.ts';
import { COVERAGE, doubtDigits, numberText, signedText, plainText } from '../../src/words/format.ts';
import '../figures-table/copy-table.ts';
import { hrefOf } from '../frame/routes.ts';
import { typedNumber } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './shape-outlines.ts';

/** A shape: its widths at distances from the fold, its figures, and another shape laid over it. */
@customElement('bench-shape-panel')
export class ShapePanel extends BenchElement {
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
        grid-template-columns: minmax(0, 300px) minmax(0, 1fr);
        gap: var(--bench-space-5);
      }
      textarea {
        font-variant-numeric: tabular-nums;
      }
      label {
        max-width: 320px;
      }
      td small {
        color: var(--bench-ink3);
      }
      @media (max-width: 640px) {
        .two {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @query('textarea') private readonly area!: HTMLTextAreaElement;
  @state() private problem = '';
  @state() private otherId = '';

  @property({ attribute: false }) shape: Shape | undefined;
  @property({ attribute: false }) shapes: readonly Shape[] = [];

  private get other(): Shape | undefined {
    return this.shapes.find(({ id }) => id === this.otherId && id !== this.shape?.id);
  }

  /** Lines of a distance and a width, or a sentence about the first that is none. */
  private typed(): Shape['widths'] | string {
    const lines = this.area.value.split('\n').filter((line) => line.trim() !== '');
    const widths: Shape['widths'] = [];
    for (const [i, line] of lines.entries()) {
      const [fromFoldMm = NaN, widthMm = NaN, ...more] = line
        .trim()
        .split(/[\s;]+/)
        .map(typedNumber);
      if (more.length > 0 || !Number.isFinite(fromFoldMm) || !Number.isFinite(widthMm))
        return `Line ${i + 1}, “${line.trim()}”: write a distance and a width, as in 10 6.05.`;
      widths.push({ fromFoldMm, widthMm });
    }
    const checked = shapeSchema.shape.widths.safeParse(widths);
    if (checked.success) return checked.data;
    const [issue] = checked.error.issues;
    const line = typeof issue?.path[0] === 'number' ? `Line ${issue.path[0] + 1}: ` : '';
    return `${line}${issue?.message ?? 'These widths cannot be taken.'}`;
  }

  private async handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const widths = this.typed();
    this.problem = typeof widths === 'string' ? widths : '';
    if (typeof widths === 'string') return;
    const shape = this.shape!;
    const store = this.library.store!;
    const latest = () => store.snapshot.live.shape.find(({ id }) => id === shape.id) ?? shape;
    await store.keepLatest(() => [{ ...latest(), widths }], `shape ${shape.name}`);
  }

  private async handleBin() {
    const shape = this.shape!;
    await this.library.store!.remove([shape.id], `shape ${shape.name} into the bin`);
    location.hash = hrefOf({ at: 'cane' });
  }

  override render() {
    const { shape, other } = this;
    if (!shape) return nothing;
    const text = shape.widths
      .map(({ fromFoldMm, widthMm }) => `${fromFoldMm} ${widthMm.toFixed(2)}`)
      .join('\n');
    return html`<div class="panel">
      <section>
        <h2>Shape ${shape.name}</h2>
        ${other ? html`<p class="aside">${sentence(this.comparison(shape, other))}</p>` : nothing}
      </section>
      <div class="two">
        <form @submit=${this.handleKeep}>
          <label
            >From the fold and width, mm, one pair a line<textarea
              rows="12"
              .value=${text}
              spellcheck="false"
            ></textarea>
          </label>
          ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
          <div class="acts">
            <button class="main">Keep</button>
            <button type="button" @click=${this.handleBin}>Put into the bin</button>
          </div>
        </form>
        <section>
          <bench-shape-outlines
            .shapes=${other ? [shape, other] : [shape]}
            .decimal=${this.library.choices.decimal}
          ></bench-shape-outlines>
          ${this.renderOthers(shape)} ${this.renderFigures(shape, other)}
        </section>
      </div>
    </div>`;
  }

  private renderOthers(shape: Shape) {
    const others = this.shapes.filter(({ id }) => id !== shape.id);
    if (others.length === 0) return nothing;
    return html`<label
      >Beside it<select
        @change=${(event: Event) => (this.otherId = (event.target as HTMLSelectElement).value)}
      >
        <option value="">none</option>
        ${others.map(
          ({ id, name }) => html`<option value=${id} ?selected=${id === this.otherId}>${name}</option>`,
        )}
      </select></label
    >`;
  }

  private figure({ value, u }: OutlineFigure, usual: number, signed = false) {
    const doubt = COVERAGE * u;
    const digits = doubtDigits(doubt, usual);
    const { writing } = this.library;
    const inside = signed && Math.abs(value) <= doubt;
    const number = (signed ? signedText : numberText)(value, digits, writing);
    return html`${inside ? `(${number})` : number} <small>±${numberText(doubt, digits, writing)}</small>`;
  }

  private renderFigures(shape: Shape, other: Shape | undefined) {
    const one = shapeFigures(shape);
    const both = other && this.compared(shape, other);
    const row = (name: string, own: OutlineFigure, difference: OutlineFigure | undefined, usual: number) =>
      html`<tr>
        <th scope="row">${name}</th>
        <td>${this.figure(own, usual)}</td>
        ${both ? html`<td>${difference ? this.figure(difference, usual, true) : '–'}</td>` : nothing}
      </tr>`;
    return html`<table>
      <caption>
        ± 95
        %${both ? `; the difference over ${plainText(both.fromMm, this.library.writing)} to ${plainText(both.toMm, this.library.writing)} mm from the fold` : ''}
        <bench-copy></bench-copy>
      </caption>
      <thead>
        <tr>
          <th scope="col">Figure</th>
          <th scope="col">${shape.name}</th>
          ${both ? html`<th scope="col">less ${other.name}</th>` : nothing}
        </tr>
      </thead>
      <tbody>
        ${row('Width at the fold, mm', one.widthAtFoldMm, both && both.widths[0]?.differenceMm, 2)}
        ${row('Flare, mm a mm', one.flareMmPerMm, both?.flareMmPerMm, 4)}
        ${row('Area, mm²', one.areaMm2, both?.areaMm2, 1)}
      </tbody>
    </table>`;
  }

  private compared(shape: Shape, other: Shape) {
    try {
      return compareShapes(shape, other);
    } catch {
      return undefined;
    }
  }

  private comparison(shape: Shape, other: Shape): string {
    const both = this.compared(shape, other);
    if (!both) return `${shape.name} and ${other.name} share no stretch to compare.`;
    const { fromFoldMm, differenceMm } = both.most;
    const { writing } = this.library;
    if (Math.abs(differenceMm.value) <= COVERAGE * differenceMm.u)
      return `${shape.name} and ${other.name} cannot be told apart.`;
    const size = numberText(Math.abs(differenceMm.value), 2, writing);
    const way = differenceMm.value > 0 ? 'wider' : 'narrower';
    return `${shape.name} is at most ${size} mm ${way} than ${other.name}, ${numberText(fromFoldMm, 1, writing)} mm from the fold.`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-shape-panel': ShapePanel;
  }
}
