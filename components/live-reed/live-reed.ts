import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import { liveFigures, type LeftOpen, type LiveFigures, type LiveReed } from '../../src/answers/live-reed.ts';
import { COVERAGE, thicknessFigure, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import '../figures-table/figures-table.ts';
import type { FigureRow } from '../figures-table/laid-out.ts';
import '../map/blade-map.ts';
import type { BladeMapData } from '../map/map-data.ts';
import '../picture/picture.ts';
import { isOtherFormat } from '../store/library-controller.ts';
import { BenchElement } from '../theme/bench-element.ts';

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
export class LiveReedView extends BenchElement {
  static override styles = css`
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
    .older {
      opacity: 0.5;
    }
    p {
      min-height: 1.5em;
      margin: 0;
      color: var(--bench-ink3);
      font: var(--bench-font-caption);
    }
  `;

  private figures: LiveFigures | undefined;
  private maps: Readonly<Partial<Record<Blade, BladeMapData>>> = {};
  private doubts: Readonly<Partial<Record<Blade, BladeMapData>>> = {};

  @property({ attribute: false }) live: LiveReed | undefined;
  /** What was open when the hand last rested: older than the surface while it is refined. */
  @property({ attribute: false }) open: LeftOpen | undefined;
  /** The smoothing is still held: a full fit follows when the hand rests. */
  @property({ type: Boolean }) refining = false;
  /** What the rested surface leaves most open, in words. */
  @property({ attribute: 'least-sure' }) leastSure = '';
  @property({ attribute: false, hasChanged: isOtherFormat }) writing: NumberFormat = {
    unit: 'hundredths',
    decimal: 'point',
  };

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('live')) this.takeLive(changed.get('live'));
    const { live, open } = this;
    if (changed.has('open')) this.doubts = this.mapsOf((blade) => live && this.doubtOf(live, blade, open));
  }

  private mapsOf(map: (blade: Blade) => BladeMapData | undefined) {
    return Object.fromEntries(BLADES.map((blade) => [blade, map(blade)]));
  }

  private takeLive(last: LiveReed | undefined) {
    const { live } = this;
    this.figures = live && liveFigures(live);
    const isSameGrid = live !== undefined && last?.grid === live.grid;
    this.maps = this.mapsOf((blade) => {
      const before = isSameGrid ? this.maps[blade] : undefined;
      const now = live && this.mapOf(live, blade, this.figures?.maps[blade]);
      return before && now && looksAlike(before, now) ? before : now;
    });
  }

  private doubtOf(live: LiveReed, blade: Blade, open: LeftOpen | undefined) {
    return this.mapOf(
      live,
      blade,
      open?.maps[blade]?.map((uMm) => COVERAGE * uMm),
    );
  }

  private mapOf(live: LiveReed, blade: Blade, values: Float64Array | undefined): BladeMapData | undefined {
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

  private renderBlades(
    quantity: 'thickness' | 'doubt',
    maps: Readonly<Partial<Record<Blade, BladeMapData>>>,
    words: string,
  ) {
    return html`<div class="blades">
      ${BLADES.map(
        (blade) =>
          html`<div>
            <h2 part="words">${blade}</h2>
            <bench-blade-map
              plain
              .data=${maps[blade]}
              quantity=${quantity}
              label=${`Blade ${blade} ${words}`}
            ></bench-blade-map>
          </div>`,
      )}
    </div>`;
  }

  override render() {
    const { live } = this;
    if (!live) return html`<p role="status">${this.refining ? 'refining' : nothing}</p>`;
    const { reed, passes } = live.benched;
    const shown = passes[live.pass]!;
    const of = `${reed.label}, pass ${shown.index}, ${UNIT_WORDS[this.writing.unit].caption}`;
    const date = shown.takenAt?.slice(0, 10) ?? '';
    return html`<bench-picture caption=${`${of}, as typed: pale is thin`} date=${date} file-name="as typed"
        >${this.renderBlades('thickness', this.maps, 'as it is typed')}</bench-picture
      >
      <p role="status">${this.refining ? 'refining' : this.leastSure}</p>
      ${
        this.open
          ? html`<p>How sure each place is. Pale: sure, dark: unsure.</p>
              <bench-picture
                class=${this.refining ? 'older' : ''}
                caption=${`${of}, how sure each place is; pale: sure, dark: unsure`}
                date=${date}
                file-name="how sure"
                >${this.renderBlades('doubt', this.doubts, 'by how sure each place is')}</bench-picture
              >`
          : nothing
      }
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
