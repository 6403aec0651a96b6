import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Place } from '../../shared/blade.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { pictureWords } from '../../src/answers/picture-words.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { thicknessPlate, type Plate } from '../bench/plate-data.ts';
import { carrying, lampBlades, reliefBlades, type Carried } from '../bench/relief-blades.ts';
import { USUAL_ATTENUATION_PER_MM } from '../lamp/light.ts';
import { lastResult } from '../last-result.ts';
import '../map/blade-map.ts';
import { STANCES, type Print } from '../map/prints.ts';
import type { ReliefBlade } from '../relief/relief-data.ts';
import '../relief/relief-print.ts';
import { LibraryController } from '../store/library-controller.ts';
import { oneOf, ReedPart } from './reed-part.ts';

const NO_BLADES: readonly ReliefBlade[] = [];

/**
 * A reed as a body that is turned in the hand. What draws it is fetched when it first comes into sight; where the browser
 * has no WebGL the flat maps stand in its place.
 *
 * Keys, while the picture has the focus: arrows turn it, `+` and `-` come nearer and go back, `0` is the first view, Shift
 * and arrows move the marked place, `F` fills the screen.
 *
 * @slot choice - Stands first under the picture.
 * @fires {MapProbeEvent} bench-map-probe - The pointer rests on a place of a blade, or has left the blades: `event.place`.
 */
@customElement('bench-reed-relief')
export class ReedRelief extends ReedPart {
  static override styles = [
    ReedPart.styles,
    css`
      bench-relief-print {
        max-width: 760px;
      }
      :host([bare]) bench-relief-print {
        max-width: none;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private readonly thickness = lastResult(thicknessPlate);
  private readonly bodies = lastResult(reliefBlades);
  private readonly carrying = lastResult(carrying);
  private readonly againstLamp = lastResult(lampBlades);

  /** How the reed lies: `opened` (the blades beside each other), `staple` (as it is played) or `flat`. */
  @property({ reflect: true, useDefault: true }) stance: Print = 'opened';
  /** How much a clip would take off the tip, mm: drawn as a cut. */
  @property({ type: Number, attribute: 'clip-mm' }) clipMm: number | undefined;
  /** Shows the lamp's view beside the reed on its staple. */
  @property({ type: Boolean, attribute: 'with-lamp' }) withLamp = false;
  /** A place to mark, with the one that faces it: `blade`, `fromTipMm`, `across`. */
  @property({ attribute: false }) probe: Place | undefined;
  /** What stands at the marked place, in words. */
  @property({ attribute: 'probe-text' }) probeText = '';
  /**
   * What is printed on the blades besides their thickness; absent for the thickness alone.
   *
   * @internal
   */
  @property({ attribute: false }) plate: Plate | undefined;
  /**
   * How `plate` is carried.
   *
   * @internal
   */
  @property({ attribute: false }) carried: Carried | undefined;
  /**
   * The cane that the blades were made of, where its gouge is known.
   *
   * @internal
   */
  @property({ attribute: false }) original: OriginalCane | undefined;

  protected override get misfit() {
    return super.misfit ?? oneOf('stance', this.stance, STANCES);
  }

  /** The bodies with what is printed on them, and the same against the lamp. */
  private drawn({ benched, pass }: ReedAtPass) {
    const { plate, carried, original, library } = this;
    const thickness = this.thickness(benched, pass);
    const bare = this.bodies(benched, pass, thickness, original);
    const perMm = library.choices.lampAttenuationPerMm ?? USUAL_ATTENUATION_PER_MM;
    return {
      thickness,
      blades: plate && carried ? this.carrying(bare, plate, carried) : bare,
      lamp: this.withLamp ? this.againstLamp(bare, perMm) : NO_BLADES,
    };
  }

  protected override renderReed(at: ReedAtPass) {
    const { writing } = this;
    const { thickness, blades, lamp } = this.drawn(at);
    if (blades.length === 0) return nothing;
    const { reed, passes } = at.benched;
    return html`<bench-relief-print
      .blades=${blades}
      .lamp=${lamp}
      .stance=${this.stance}
      .writing=${writing}
      .clipMm=${this.clipMm}
      .probe=${this.probe}
      probe-text=${this.probeText}
      file-name=${`${reed.label} pass ${passes[at.pass]?.index ?? at.pass} relief`}
      label=${pictureWords(at.benched, at.pass, writing).join(' ')}
    >
      <slot name="choice" slot="choice"></slot>
      ${blades.map(
        ({ blade }) =>
          html`<bench-blade-map
            .data=${thickness[blade]}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
          ></bench-blade-map>`,
      )}
    </bench-relief-print>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-relief': ReedRelief;
  }
}
