import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { BLADES, facing, type Blade, type Place } from '../../shared/blade.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import { floorAt } from '../../src/blade/floors.ts';
import { thicknessMap } from '../../src/figures/surface-map.ts';
import { stationText, UNIT_WORDS, type Writing } from '../../src/report/format.ts';
import type { ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import type { ReliefBlade } from '../relief/relief-data.ts';
import '../relief/relief.ts';
import { base, controls } from '../theme/base.styles.ts';
import { thicknessPlate } from './plate-data.ts';

type Shown = Blade | 'both';
const SHOWN: readonly Shown[] = ['A', 'B', 'both'];
/** Where blades are cut across at first, mm from the tip, and how finely the cut is moved. */
const CUT = { fromTipMm: 10, stepMm: 0.5 };
const ACROSS = Array.from({ length: 41 }, (_, i) => -1 + i / 20);
const EXAGGERATION = 8;

/**
 * A reed after a pass as a relief: one blade or both, flat or as on the reed, with its floor, and cut across anywhere, A with
 * what faces it.
 */
@customElement('bench-reed-relief')
export class ReedRelief extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-3);
        align-items: center;
        margin-top: var(--bench-space-2);
        font: var(--bench-font-caption);
      }
      label {
        display: inline-flex;
        gap: var(--bench-space-2);
        align-items: center;
        min-height: var(--bench-touch);
      }
      input {
        accent-color: var(--bench-ink);
      }
      input[type='checkbox'] {
        width: 20px;
        height: 20px;
      }
      .cut {
        flex: 1 1 100%;
      }
      .cut input {
        flex: 1;
      }
    `,
  ];

  private blades: readonly ReliefBlade[] = [];
  private inSight: readonly ReliefBlade[] = [];
  private section: readonly ChartLine[] = [];

  @state() private shown: Shown = 'A';
  @state() private asOnTheReed = false;
  @state() private withFloor = false;
  @state() private isCut = false;
  @state() private cutAtMm = CUT.fromTipMm;

  @property({ attribute: false }) benched: BenchedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  /** A place to mark, with the one that faces it. */
  @property({ attribute: false }) probe: Place | undefined;
  @property({ attribute: false }) writing: Writing = { unit: 'hundredths', decimal: 'point' };

  override willUpdate(changed: PropertyValues) {
    if (['benched', 'pass', 'withFloor'].some((name) => changed.has(name))) this.blades = this.reliefs();
    // The same list as long as nothing of it changes, so that a moving probe does not build the scene anew.
    if (['benched', 'pass', 'withFloor', 'shown'].some((name) => changed.has(name))) {
      this.inSight = this.blades.filter(({ blade }) => this.shown === 'both' || blade === this.shown);
    }
    if (['benched', 'pass', 'cutAtMm', 'isCut'].some((name) => changed.has(name))) {
      this.section = this.isCut ? this.across() : [];
    }
  }

  private reliefs(): ReliefBlade[] {
    const { benched, pass } = this;
    if (!benched?.model) return [];
    const plate = thicknessPlate(benched, pass);
    return BLADES.flatMap((blade) => {
      const data = plate[blade];
      if (!data) return [];
      const pins = data.marks.map((mark) => ({ ...mark, thicknessMm: mark.valueMm }));
      const { floors } = benched.assembled.style;
      const floorMm = Array.from(data.ysMm)
        .flatMap((y) => Array.from(data.us, (u) => floorAt(floors, y, u) ?? NaN))
        .map((floor, k) => (Number.isNaN(data.valuesMm[k]) ? NaN : floor));
      return [{ ...data, pins, ...(this.withFloor && { floorMm }) }];
    });
  }

  /** A from its left to its right, and of B what faces it. */
  private across(): ChartLine[] {
    const { benched, pass, cutAtMm } = this;
    const model = benched?.model;
    if (!model) return [];
    return BLADES.filter((blade) => model.blades[blade]).map((blade) => {
      const us = ACROSS.map((across) =>
        blade === 'A' ? across : facing({ blade: 'A', fromTipMm: cutAtMm, across }).across,
      );
      const { valuesMm, uMm } = thicknessMap(model, blade, pass, { ysMm: [cutAtMm], us });
      return {
        name: blade === 'A' ? 'A' : 'B, facing it',
        look: blade,
        at: ACROSS,
        thicknessMm: valuesMm,
        uMm,
      };
    });
  }

  override render() {
    const { shown, writing } = this;
    if (this.blades.length === 0) return nothing;
    const choices = this.blades.length === 2 ? SHOWN : this.blades.map(({ blade }) => blade);
    return html`<bench-relief
        .blades=${this.inSight}
        .exaggeration=${EXAGGERATION}
        .probe=${this.probe}
        .arrangement=${this.asOnTheReed ? 'facing' : 'beside'}
        .lay=${this.asOnTheReed ? 'arched' : 'flat'}
        .cutAtMm=${this.isCut ? this.cutAtMm : undefined}
        label=${shown === 'both' ? 'Relief of both blades' : `Relief of blade ${shown}`}
      >
        ${this.isCut ? nothing : html`<p>Cut it across to see its thickness from side to side.</p>`}
      </bench-relief>
      <div class="row">
        <div class="choice" role="group" aria-label="Blades shown">
          ${choices.map(
            (choice) =>
              html`<button aria-pressed=${choice === shown} @click=${() => (this.shown = choice)}>
                ${choice}
              </button>`,
          )}
        </div>
        ${this.renderSwitch('as on the reed', this.asOnTheReed, (on) => (this.asOnTheReed = on))}
        ${this.renderSwitch('floor', this.withFloor, (on) => (this.withFloor = on))}
        ${this.renderSwitch('cut across', this.isCut, (on) => (this.isCut = on))}
      </div>
      ${this.isCut ? this.renderCut(writing) : nothing}`;
  }

  private renderSwitch(words: string, isOn: boolean, change: (on: boolean) => void) {
    const handle = (event: Event) => change((event.target as HTMLInputElement).checked);
    return html`<label><input type="checkbox" .checked=${isOn} @change=${handle} />${words}</label>`;
  }

  private renderCut(writing: Writing) {
    const longest = Math.max(...this.blades.map(({ bladeLengthMm }) => bladeLengthMm));
    const handle = (event: Event) => (this.cutAtMm = (event.target as HTMLInputElement).valueAsNumber);
    const where = `${stationText(this.cutAtMm, writing)} from the tip`;
    return html`<label class="row cut">
        Cut at
        <input
          type="range"
          min="0"
          max=${longest}
          step=${CUT.stepMm}
          aria-valuetext=${where}
          .value=${String(this.cutAtMm)}
          @input=${handle}
        />
        ${where}
      </label>
      <bench-profile-chart
        along="across"
        .lines=${this.section}
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        label=${`Thickness across at ${where}, ${UNIT_WORDS[writing.unit].caption}: A, and B where it faces A`}
      ></bench-profile-chart>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-relief': ReedRelief;
  }
}
