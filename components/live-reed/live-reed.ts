import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import { liveFigures, type LiveFigures, type LiveReed } from '../../src/answers/live-reed.ts';
import { thicknessFigure, UNIT_WORDS, type Writing } from '../../src/report/format.ts';
import '../figures-table/figures-table.ts';
import type { FigureRow } from '../figures-table/figures-table.ts';
import '../map/blade-map.ts';
import type { BladeMapData } from '../map/map-data.ts';
import '../picture/picture.ts';
import { isOtherWriting } from '../store/library-controller.ts';
import { base } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

/** A map is drawn this far past the last reading, mm. */
const PAST_LAST_MM = 0.8;

/** Both blades and the means of their zones while a pass is typed: what every key changes. */
@customElement('bench-live-reed')
export class LiveReedView extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: grid;
        gap: var(--bench-space-3);
        align-content: start;
      }
      .blades {
        display: grid;
        grid-template-columns: repeat(2, minmax(0, 120px));
        gap: var(--bench-space-4);
      }
      h2 {
        margin: 0;
        font: var(--bench-font-aside);
        text-align: center;
      }
      bench-figures-table {
        overflow-x: auto;
      }
      p {
        min-height: 1.5em;
        margin: 0;
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private figures: LiveFigures | undefined;

  @property({ attribute: false }) live: LiveReed | undefined;
  /** The smoothing is still held: a full fit follows when the hand rests. */
  @property({ type: Boolean }) refining = false;
  /** What the rested surface leaves most open, in words. */
  @property({ attribute: 'least-sure' }) leastSure = '';
  @property({ attribute: false, hasChanged: isOtherWriting }) writing: Writing = {
    unit: 'hundredths',
    decimal: 'point',
  };

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('live')) this.figures = this.live && liveFigures(this.live);
  }

  private mapOf(live: LiveReed, blade: Blade): BladeMapData | undefined {
    const values = this.figures?.maps[blade];
    if (!values) return undefined;
    const geometry = live.model.passes[live.pass]!;
    const { ysMm, us } = live.grid;
    const toMm = (live.read[blade]?.toMm ?? 0) + PAST_LAST_MM;
    return {
      blade,
      bladeLengthMm: geometry.bladeLengthMm,
      ysMm,
      us,
      halfWidthMm: ysMm.map(geometry.halfWidthMm),
      valuesMm: values.map((value, k) => (ysMm[Math.floor(k / us.length)]! <= toMm ? value : NaN)),
      marks: [],
      zones: [],
    };
  }

  private get rows(): FigureRow[] {
    return (this.figures?.zones ?? []).map(({ title, blades }) => ({
      title,
      cells: BLADES.map((blade) => {
        const mean = blades[blade];
        return mean ? thicknessFigure(mean, this.writing) : { none: `${blade} is not read` };
      }),
    }));
  }

  override render() {
    const { live } = this;
    if (!live) return html`<p role="status">${this.refining ? 'refining' : nothing}</p>`;
    return html`<bench-picture caption="Blades as they are typed, pale is thin" file-name="as typed"
        ><div class="blades">
          ${BLADES.map(
            (blade) =>
              html`<div>
                <h2 part="words">${blade}</h2>
                <bench-blade-map
                  plain
                  .data=${this.mapOf(live, blade)}
                  label=${`Blade ${blade} as it is typed`}
                ></bench-blade-map>
              </div>`,
          )}
        </div></bench-picture
      >
      <p role="status">${this.refining ? 'refining' : this.leastSure}</p>
      <bench-figures-table
        caption=${`Zone means, ${UNIT_WORDS[this.writing.unit].caption}, ± 95 %`}
        .heads=${['Zone', 'A', 'B']}
        .rows=${this.rows}
      ></bench-figures-table>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-live-reed': LiveReedView;
  }
}
