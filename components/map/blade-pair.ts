import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import type { Quantity } from '../theme/ramp.ts';
import './blade-map.ts';
import type { BladeMap } from './blade-map.ts';
import { widthNote } from './blade-layers.ts';
import type { BladeMapData, OutlinePoint, ProfileLine } from './map-data.ts';
import type { MapFacingEvent } from './map-events.ts';
import './map-key.ts';
import type { KeyEntry } from './map-key.ts';
import './map-legend.ts';
import type { Print } from './prints.ts';

/**
 * The plate with both blades side by side, their caption, legend and key; narrow, one blade with a switch. The blades
 * keep their place and scale whatever is printed on them: the caption has one height, and what needs more words stands
 * under the blades. `x` on one blade goes to the facing place on the other.
 *
 * Events of the maps (`bench-map-probe`, `bench-map-station-open`, `bench-map-line-move`) pass through.
 *
 * @event bench-print-choose - Another print of the reed was chosen: the owner sets `print` and fills its slot.
 * @slot print - Stands in the place of the flat blades while `print` is another than `flat`.
 * @slot third - A picture beside the blades, at their height.
 * @slot foot - Controls under the blades, before the key.
 */
@customElement('bench-blade-pair')
export class BladePair extends BenchElement {
  static override styles = [
    controls,
    css`
      :host {
        container-type: inline-size;
      }
      header,
      footer {
        display: flex;
        gap: var(--bench-space-2) var(--bench-space-4);
        justify-content: space-between;
      }
      header {
        height: 38px;
        max-width: var(--bench-pair-width, none);
      }
      footer {
        flex-wrap: wrap;
        align-items: center;
        justify-content: flex-start;
        margin-top: var(--bench-space-1);
      }
      .about {
        flex: 1 1 180px;
        min-width: 0;
      }
      .about > * {
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      h2 {
        margin: 0;
        font: var(--bench-font-head);
      }
      p {
        margin: 0;
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
      bench-map-legend {
        flex: 0 0 220px;
      }
      .prints {
        display: flex;
        gap: var(--bench-space-3);
        justify-content: center;
      }
      ::slotted([slot='print']) {
        flex: 1 1 0;
        min-width: 0;
        /* As tall as the flat blades, also while it is empty. */
        min-height: min(560px, 120vw);
      }
      .note {
        flex: 1 1 100%;
      }
      .probe {
        min-height: 1.4em;
        color: var(--bench-ink2);
      }
      .blades {
        display: flex;
        flex: 0 1 auto;
        gap: 8px;
        width: var(--bench-pair-width, 550px);
        min-width: 0;
      }
      bench-blade-map {
        flex: 1 1 0;
        min-width: 0;
      }
      .which {
        align-self: start;
        display: none;
      }
      @media print {
        .choice,
        ::slotted([slot='choice']),
        ::slotted([slot='foot']) {
          display: none !important;
        }
      }
      @container (max-width: 700px) {
        /* Without a picture beside the blades the words have the whole width. */
        header {
          max-width: none;
        }
        slot[name='third'] {
          display: none;
        }
      }
      /* Room for one blade only. */
      @container (max-width: 459px) {
        header {
          flex-wrap: wrap;
          height: auto;
        }
        .about > * {
          white-space: normal;
        }
        .which {
          display: inline-flex;
        }
        .blades {
          max-width: 420px;
        }
        bench-blade-map:not([data-shown]) {
          display: none;
        }
      }
    `,
  ];

  private longest = 0;

  @property({ attribute: false }) a: BladeMapData | undefined;
  @property({ attribute: false }) b: BladeMapData | undefined;
  @property() quantity: Quantity = 'thickness';
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';
  /** Names the picture, so that it can stand by itself. */
  @property() heading = '';
  /** What the two ends of the colours stand for, in words. */
  @property({ attribute: false }) ends: readonly [low: string, high: string] | undefined;
  /** What is shown, for example `Pass 2 less pass 3, hundredths.`; stands above the blades. */
  @property() caption = '';
  /** What the maps show, for those who cannot see them, where that is not the heading. */
  @property() label = '';
  /** The blade shown where there is room for one. */
  @property() shown: Blade = 'A';
  @property({ type: Boolean, attribute: 'numbers-only' }) numbersOnly = false;
  /** Differences up to this are drawn as not measurable in the legend, mm. */
  @property({ type: Number, attribute: 'doubt-mm' }) doubtMm = 0;
  /** More words on what is shown; they stand under the blades. */
  @property() note = '';
  /** How the reed lies on the plate. */
  @property() print: Print = 'flat';
  /** What is printed has no scale of colours. */
  @property({ type: Boolean, attribute: 'without-legend' }) withoutLegend = false;
  @property({ attribute: false }) key: readonly KeyEntry[] = [];
  /** The place the probe rests on; its facing place is marked too. */
  @property({ attribute: false }) probe: Place | undefined;
  /** What the probe finds there, in words. */
  @property({ attribute: 'probe-text' }) probeText = '';
  /** The line of a profile, drawn on both blades, each seen from its own bark side. */
  @property({ attribute: false }) line: ProfileLine | undefined;
  /** Length that each picture gives room for, mm, at least that of the longer blade. */
  @property({ type: Number, attribute: 'length-mm' }) lengthMm = 0;

  /** Puts the keyboard on the station nearest to a place. */
  async focusPlace(place: Place): Promise<void> {
    this.shown = place.blade;
    await this.updateComplete;
    const map = this.renderRoot.querySelector<BladeMap>(`bench-blade-map[data-blade="${place.blade}"]`);
    await map?.focusPlace(place);
  }

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('a') || changed.has('b')) {
      const lengths = [this.a, this.b].map((data) => data?.bladeLengthMm ?? 0);
      this.longest = Math.max(...lengths);
    }
  }
  private handleFacing(event: MapFacingEvent) {
    void this.focusPlace(event.place);
  }

  private probeOn(blade: Blade): OutlinePoint | undefined {
    const { probe } = this;
    if (!probe) return undefined;
    return probe.blade === blade ? probe : { fromTipMm: probe.fromTipMm, across: -probe.across };
  }

  override render() {
    return html`<header>
        <div class="about">
          ${this.heading ? html`<h2 part="words" title=${this.heading}>${this.heading}</h2>` : nothing}
          <p part="words" title=${this.caption}>
            ${this.caption} ${this.print === 'flat' ? widthNote(this) : nothing}
          </p>
        </div>
        ${this.print === 'flat' ? this.renderSwitch() : nothing}
        ${this.withoutLegend ? nothing : this.renderLegend()}
      </header>
      <div class="prints">
        ${
          this.print === 'flat'
            ? html`<div class="blades" part="blades" @bench-map-facing=${this.handleFacing}>
                ${BLADES.map((blade) => this.renderBlade(blade))}
              </div>`
            : html`<slot name="print"></slot>`
        }
        <slot name="third"></slot>
      </div>
      ${this.print === 'flat' ? html`<p class="probe">${this.probeText}</p>` : nothing}
      <footer>
        <slot name="choice"></slot><slot name="foot"></slot>
        <bench-map-key .entries=${this.key}></bench-map-key>
        ${this.note ? html`<p class="note" part="words">${this.note}</p>` : nothing}
      </footer>`;
  }

  private renderLegend() {
    return html`<bench-map-legend
      .quantity=${this.quantity}
      .unit=${this.unit}
      .decimal=${this.decimal}
      .doubtMm=${this.doubtMm}
      .ends=${this.ends}
    ></bench-map-legend>`;
  }

  private renderSwitch() {
    return html`<div class="choice which" role="group" aria-label="Blade">
      ${BLADES.map(
        (blade) =>
          html`<button aria-pressed=${blade === this.shown} @click=${() => (this.shown = blade)}>
            ${blade}
          </button>`,
      )}
    </div>`;
  }

  private renderBlade(blade: Blade) {
    return html`<bench-blade-map
      data-blade=${blade}
      ?data-shown=${blade === this.shown}
      .data=${blade === 'A' ? this.a : this.b}
      .quantity=${this.quantity}
      .unit=${this.unit}
      .decimal=${this.decimal}
      .label=${[`Blade ${blade}`, this.label || this.heading].filter(Boolean).join(': ')}
      .lengthMm=${Math.max(this.lengthMm, this.longest)}
      .numbersOnly=${this.numbersOnly}
      .probe=${this.probeOn(blade)}
      .line=${this.line}
    ></bench-blade-map>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-blade-pair': BladePair;
  }
}
