import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Place } from '../../shared/blade.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import { pictureWords } from '../../src/answers/picture-words.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import type { Writing } from '../../src/words/format.ts';
import { USUAL_ATTENUATION_PER_MM } from '../lamp/light.ts';
import '../map/blade-map.ts';
import type { Print } from '../map/prints.ts';
import type { ReliefBlade } from '../relief/relief-data.ts';
import '../relief/relief-print.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base } from '../theme/base.styles.ts';
import { thicknessPlate, type Plate } from './plate-data.ts';
import { carrying, lampBlades, reliefBlades, type Carried } from './relief-blades.ts';

/** A reed after a pass as a body on the plate, with what the question prints on its flat map. */
@customElement('bench-fitted-relief')
export class FittedRelief extends LitElement {
  static override styles = [base];

  private readonly library = new LibraryController(this);
  private thickness: Plate = {};
  private bare: readonly ReliefBlade[] = [];
  private blades: readonly ReliefBlade[] = [];
  private lamp: readonly ReliefBlade[] = [];

  @property({ attribute: false }) benched: BenchedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  @property() stance: Print = 'opened';
  /** What the question prints, and how it is carried; absent for the thickness alone. */
  @property({ attribute: false }) plate: Plate | undefined;
  @property() carried: Carried | undefined;
  @property({ type: Number, attribute: 'clip-mm' }) clipMm: number | undefined;
  /** Shows the lamp's view beside it. */
  @property({ type: Boolean, attribute: 'with-lamp' }) withLamp = false;
  /** A place to mark, with the one that faces it. */
  @property({ attribute: false }) probe: Place | undefined;
  /** What the probe finds there, in words. */
  @property({ attribute: 'probe-text' }) probeText = '';
  /** The cane that the blades were made of, where its gouge is known. */
  @property({ attribute: false }) original: OriginalCane | undefined;
  @property({ attribute: false }) writing: Writing = { unit: 'hundredths', decimal: 'point' };

  override willUpdate(changed: PropertyValues<this>) {
    const { benched, pass, original, plate, carried } = this;
    if (!benched?.model) return;
    const isOther = changed.has('benched') || changed.has('pass') || changed.has('original');
    if (isOther) {
      this.thickness = thicknessPlate(benched, pass);
      this.bare = reliefBlades(benched, pass, this.thickness, original);
    }
    if (isOther || changed.has('withLamp')) this.lamp = this.withLamp ? this.againstLamp() : [];
    if (isOther || changed.has('plate') || changed.has('carried'))
      this.blades = plate && carried ? carrying(this.bare, plate, carried) : this.bare;
  }

  private againstLamp(): ReliefBlade[] {
    return lampBlades(this.bare, this.library.choices.lampAttenuationPerMm ?? USUAL_ATTENUATION_PER_MM);
  }

  override render() {
    const { writing, benched, pass } = this;
    if (!benched || this.blades.length === 0) return nothing;
    const { label } = benched.reed;
    const shown = benched.passes[pass];
    return html`<bench-relief-print
      .blades=${this.blades}
      .lamp=${this.lamp}
      .stance=${this.stance}
      .writing=${writing}
      .clipMm=${this.clipMm}
      .probe=${this.probe}
      probe-text=${this.probeText}
      file-name=${`${label} pass ${shown?.index ?? pass} relief`}
      label=${pictureWords(benched, pass, writing).join(' ')}
    >
      ${this.blades.map(
        ({ blade }) =>
          html`<bench-blade-map
            .data=${this.thickness[blade]}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
          ></bench-blade-map>`,
      )}
    </bench-relief-print>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-fitted-relief': FittedRelief;
  }
}
