import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Place } from '../../shared/blade.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import { pictureWords } from '../../src/answers/picture-words.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { UNIT_WORDS, type Writing } from '../../src/words/format.ts';
import '../map/blade-map.ts';
import '../map/map-legend.ts';
import type { ReliefBlade, Stance } from '../relief/relief-data.ts';
import '../relief/relief-print.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { whenAtRest, WhenSeen } from '../when-seen.ts';
import { thicknessPlate, type Plate } from './plate-data.ts';
import { lampBlades, reliefBlades } from './relief-blades.ts';

/** Until the lamp was matched. Common practice, no source. */
const USUAL_ATTENUATION_PER_MM = 3;
const STANCE_WORDS: Readonly<Partial<Record<Stance, string>>> = { opened: 'Opened', staple: 'On the staple' };

/** A reed after a pass as a body: opened or on its staple, with its floor and the cane that it was made of. */
@customElement('bench-reed-relief')
export class ReedRelief extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      .choice {
        margin-bottom: var(--bench-space-2);
      }
    `,
  ];

  protected readonly seen = new WhenSeen(this, () => whenAtRest(() => (this.isSeen = true)));
  private readonly library = new LibraryController(this);
  private blades: readonly ReliefBlade[] = [];
  private lamp: readonly ReliefBlade[] = [];
  private plate: Plate = {};

  @state() private isSeen = false;
  @state() private stance: Stance = 'opened';

  @property({ attribute: false }) benched: BenchedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  /** A place to mark, with the one that faces it. */
  @property({ attribute: false }) probe: Place | undefined;
  /** What the probe finds there, in words. */
  @property({ attribute: 'probe-text' }) probeText = '';
  /** The cane that the blades were made of, where its gouge is known. */
  @property({ attribute: false }) original: OriginalCane | undefined;
  @property({ attribute: false }) writing: Writing = { unit: 'hundredths', decimal: 'point' };

  override willUpdate(changed: PropertyValues) {
    const isOther = ['isSeen', 'benched', 'pass', 'original'].some((name) => changed.has(name));
    if (!this.isSeen || !isOther || !this.benched?.model) return;
    this.plate = thicknessPlate(this.benched, this.pass);
    this.blades = reliefBlades(this.benched, this.pass, this.plate, this.original);
    this.lamp = lampBlades(
      this.blades,
      this.library.choices.lampAttenuationPerMm ?? USUAL_ATTENUATION_PER_MM,
    );
  }

  override render() {
    const { writing, benched, pass } = this;
    if (!benched || this.blades.length === 0) return nothing;
    const { label, invented } = benched.reed;
    const shown = benched.passes[pass];
    return html`<div class="choice" role="group" aria-label="How the reed stands">
        ${Object.entries(STANCE_WORDS).map(
          ([stance, words]) =>
            html`<button
              aria-pressed=${stance === this.stance}
              @click=${() => (this.stance = stance as Stance)}
            >
              ${words}
            </button>`,
        )}
      </div>
      <bench-relief-print
        .blades=${this.blades}
        .lamp=${this.lamp}
        .stance=${this.stance}
        .writing=${writing}
        .probe=${this.probe}
        probe-text=${this.probeText}
        caption=${`${label}, pass ${shown?.index ?? pass}, ${UNIT_WORDS[writing.unit].caption}${invented ? ' (invented)' : ''}`}
        date=${shown?.takenAt?.slice(0, 10) ?? ''}
        file-name=${`${label} relief`}
        label=${pictureWords(benched, pass, writing).join(' ')}
      >
        ${this.blades.map(
          ({ blade }) =>
            html`<bench-blade-map
              .data=${this.plate[blade]}
              .unit=${writing.unit}
              .decimal=${writing.decimal}
            ></bench-blade-map>`,
        )}
        <bench-map-legend slot="legend" .unit=${writing.unit} .decimal=${writing.decimal}></bench-map-legend>
      </bench-relief-print>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-relief': ReedRelief;
  }
}
