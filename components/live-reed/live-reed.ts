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
/** A map is not drawn again for less than this, mm: nothing of it would be seen. */
const LEAST_SEEN_MM = 0.0005;

/** Whether two maps of one grid would look alike. */
const looksAlike = ({ valuesMm: a }: BladeMapData, { valuesMm: b }: BladeMapData) => {
  for (let k = 0; k < a.length; k++) {
    const [value, other] = [a[k]!, b[k]!];
    if (Number.isNaN(value) !== Number.isNaN(other) || Math.abs(value - other) >= LEAST_SEEN_MM) return false;
  }
  return true;
};

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
  private maps: Readonly<Partial<Record<Blade, BladeMapData>>> = {};

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
    if (!changed.has('live')) return;
    const { live } = this;
    this.figures = live && liveFigures(live);
    const isSameGrid = live !== undefined && changed.get('live')?.grid === live.grid;
    this.maps = Object.fromEntries(
      BLADES.map((blade) => {
        const before = isSameGrid ? this.maps[blade] : undefined;
        const now = live && this.mapOf(live, blade);
        return [blade, before && now && looksAlike(before, now) ? before : now];
      }),
    );
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
                  .data=${this.maps[blade]}
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
