import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import type { Writing } from '../../src/report/format.ts';
import type { LampMatchEvent } from '../lamp/lamp-match-event.ts';
import '../lamp/lamp.ts';
import { base } from '../theme/base.styles.ts';
import { thicknessPlate, type Plate } from './plate-data.ts';

/** A reed after a pass, and after the one before it, against the light. */
@customElement('bench-reed-light')
export class ReedLight extends LitElement {
  static override styles = [base];

  private plate: Plate = {};
  private earlier: Plate | undefined;

  @state() private attenuationPerMm: number | undefined;

  @property({ attribute: false }) benched: BenchedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  @property() decimal: Writing['decimal'] = 'point';

  override willUpdate(changed: PropertyValues) {
    const { benched, pass } = this;
    if (!benched?.model || !(changed.has('benched') || changed.has('pass'))) return;
    this.plate = thicknessPlate(benched, pass);
    this.earlier = pass > 0 ? thicknessPlate(benched, pass - 1) : undefined;
  }

  private handleMatch(event: LampMatchEvent) {
    this.attenuationPerMm = event.attenuationPerMm;
  }

  private name(pass: number): string {
    return `pass ${this.benched?.assembled.passes[pass]?.index ?? pass}`;
  }

  override render() {
    if (!this.benched?.model) return nothing;
    return html`<bench-lamp
      .reed=${this.plate}
      .earlier=${this.earlier}
      name=${this.name(this.pass)}
      earlier-name=${this.name(this.pass - 1)}
      attenuation-per-mm=${this.attenuationPerMm ?? nothing}
      .decimal=${this.decimal}
      @bench-lamp-match=${this.handleMatch}
    ></bench-lamp>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-light': ReedLight;
  }
}
