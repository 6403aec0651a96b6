import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import type { LampMatchEvent } from '../lamp/lamp-match-event.ts';
import '../lamp/lamp.ts';
import '../picture/picture.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base } from '../theme/base.styles.ts';
import { WhenSeen } from '../when-seen.ts';
import { thicknessPlate, type Plate } from './plate-data.ts';

/**
 * A reed after a pass, and after the one before it, against the light. Worked out when it comes into sight; the match to the
 * maker's lamp is kept with their choices.
 */
@customElement('bench-reed-light')
export class ReedLight extends LitElement {
  static override styles = base;

  protected readonly seen = new WhenSeen(this, () => (this.isSeen = true));
  private readonly library = new LibraryController(this);
  private plate: Plate = {};
  private earlier: Plate | undefined;

  @state() private isSeen = false;
  /** While the match is being moved. */
  @state() private movingPerMm: number | undefined;

  @property({ attribute: false }) benched: FittedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  @property() decimal: NumberFormat['decimal'] = 'point';

  override willUpdate(changed: PropertyValues) {
    const { benched, pass } = this;
    if (!this.isSeen || !benched?.model) return;
    if (!['benched', 'pass', 'isSeen'].some((name) => changed.has(name))) return;
    this.plate = thicknessPlate(benched, pass);
    this.earlier = pass > 0 ? thicknessPlate(benched, pass - 1) : undefined;
  }

  private async handleMatch({ attenuationPerMm, settled }: LampMatchEvent) {
    this.movingPerMm = attenuationPerMm;
    if (!settled) return;
    await this.library.store?.choose({ lampAttenuationPerMm: attenuationPerMm });
    if (this.library.store) this.movingPerMm = undefined;
  }

  private name(pass: number): string {
    return `pass ${this.benched?.assembled.passes[pass]?.index ?? pass}`;
  }

  override render() {
    const { benched, pass } = this;
    if (!this.isSeen || !benched?.model) return html`<p>Working out the light.</p>`;
    const { reed } = benched;
    return html`<bench-picture
      caption=${`${reed.label} against the light, ${this.name(pass)}; worked out from the thickness${reed.invented ? ' (invented)' : ''}`}
      date=${benched.passes[pass]?.takenAt?.slice(0, 10) ?? ''}
      file-name=${`${reed.label} light`}
      ><bench-lamp
        .reed=${this.plate}
        .earlier=${this.earlier}
        name=${this.name(pass)}
        earlier-name=${this.name(pass - 1)}
        attenuation-per-mm=${this.movingPerMm ?? this.library.choices.lampAttenuationPerMm ?? nothing}
        .decimal=${this.decimal}
        @bench-lamp-match=${this.handleMatch}
      ></bench-lamp
    ></bench-picture>`;
  }
}
